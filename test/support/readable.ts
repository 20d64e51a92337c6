import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Snapshot } from '@bakehouse/records';
import type { Clock } from '../../apps/api/src/platform/clock/index.js';
import type { Caller } from './people.js';

/** A house whose screens, routes and papers are read: a small bakehouse, or the demo's. */
export interface Readable {
  readonly site: string;
  readonly house: { readonly organisation: string };
  readonly t: { readonly app: NestFastifyApplication };
  readonly lead: { readonly caller: Caller };
  night(): Promise<Snapshot>;
}

/** The table of a house where a tablet lies. */
export interface Table {
  readonly site: string;
  readonly house: { readonly organisation: string };
  readonly t: { readonly clock: Clock };
  readonly baker: { readonly caller: Caller };
  readonly tablet: { readonly id: string };
}
