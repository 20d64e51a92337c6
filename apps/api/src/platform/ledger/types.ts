import type { AnyKind, ReadEntry } from '@bakehouse/records';
import type { HashedInput } from './content.js';
import type { Permission, ProblemCode, Refused } from '@bakehouse/kernel';

/** The book that is written to. */
export interface BookRef {
  readonly organisation: string;
  readonly id: string;
  readonly type: 'site' | 'organisation';
  readonly zone: string;
}

/** Who sends, as the session says: never what the body says. */
export interface Asker {
  readonly person: string;
  readonly session: string | null;
  /** The enrolled device that the session is on, if it is on one. */
  readonly device: string | null;
  readonly permissions: ReadonlySet<Permission>;
  /** What this person may do by a PIN given for one entry alone, however the session was opened: for kinds that are signed. */
  readonly whenSigned: ReadonlySet<Permission>;
}

/** One entry on its way in: parsed before any lock, judged under it. */
export interface Job {
  readonly book: BookRef;
  readonly raw: unknown;
  /** The id that it was sent with, whether or not the rest of it could be read; null where that is none. */
  readonly id: string | null;
  readonly asker: Asker;
  readonly read: ReadEntry | Refused;
  readonly kind: AnyKind | undefined;
  /** What is hashed of it, and the hash; absent where it could not be read. */
  readonly input?: HashedInput;
}

export interface Receipt {
  readonly book: string;
  readonly seq: number;
  readonly leaf: string;
  readonly recordedAt: string;
}

export type Result =
  | { readonly as: 'recorded' | 'already-recorded'; readonly id: string; readonly receipt: Receipt; readonly outcome: unknown }
  | { readonly as: 'waiting'; readonly id: string; readonly waitingFor: string[] }
  | {
      readonly as: 'refused';
      readonly id: string | null;
      readonly problem: ProblemCode;
      readonly field?: string;
      readonly acceptable?: string;
    };
