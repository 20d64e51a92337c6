import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Clock } from '../platform/clock/index.js';
import { connected, organisationNames, type Database } from '../platform/database/for-tools.js';
import { bakehouseName, unfinished } from './data/names.js';
import { people, type PersonKey } from './data/people.js';
import { emptyEverything } from './demo.query.js';

/** What a first start has in hand to fill an empty database. */
export interface SeedContext {
  readonly database: Pick<Database, 'ownerUrl' | 'serviceUrl'>;
  /** An application on the same database whose clock can be set: history is written through the door as it happened. The caller that starts it closes it. */
  readonly startApp: (clock: Clock) => Promise<NestFastifyApplication>;
  readonly say: (line: string) => void;
  /** How many weeks of nights; four, unless somebody is in a hurry. */
  readonly weeks?: number;
}

/**
 * Fills a database that holds no organisation with the invented bakehouse and weeks of its nights. One that was being filled when it was
 * cut off is cleared and filled anew. Answers with the lines to print: who is there, and with which PINs.
 */
export async function seedIfEmpty({ database, startApp, say, weeks = 4 }: SeedContext): Promise<readonly string[]> {
  const names = await connected(database.ownerUrl, organisationNames);
  if (names.length === 1 && names[0] === unfinished) {
    say('a demo was being made when it was cut off: making it anew');
    await connected(database.ownerUrl, emptyEverything);
  } else if (names.length > 0) return names.includes(bakehouseName) ? whoIsThere() : [];
  // what writes it is the service whole, and most starts find it there
  const [{ found }, { systemClock }] = await Promise.all([import('./found.js'), import('../platform/clock/index.js')]);
  const { entries } = await found({ ownerUrl: database.ownerUrl, startApp, say, now: systemClock.now(), weeks });
  say(`  the demo is there: ${entries} records`);
  return whoIsThere();
}

const line = ([key, { name, pin, does }]: [string, { name: string; pin: string; does: string }]): string[] =>
  key === 'day' ? [] : [`    ${name.padEnd(18)}${pin}   ${does}`];

function whoIsThere(): readonly string[] {
  const entries = Object.entries(people) as [PersonKey, (typeof people)[PersonKey]][]; // its own entries
  return [`  ${bakehouseName}: invented, to try things on. Nothing in it is an approved limit.`, '  Sign on as:', ...entries.flatMap(line)];
}
