import { collections } from '@bakehouse/records';

/** The tables that a backup holds, each after those that it refers to. */
export const keptTables: readonly string[] = [
  'organisation',
  'book',
  'device',
  'session',
  'credential',
  'guess_count',
  'viewing',
  'security_event',
  'draft',
  'draft_earlier',
  'entry',
  'entry_body',
  'entry_word',
  'sending',
  'set_aside',
  'seal',
  'cosignature',
  'key_change',
  'photo',
];

/** The tables that no backup holds, and why nothing is lost by that. The rows of the collections are made again from the entries. */
export const leftOutTables: ReadonlyMap<string, string> = new Map([
  ...Object.values(collections).map(({ name }): [string, string] => [name, 'made again from the entries']),
  ['clear_lot', 'worked out again when it is asked for'],
  ['on_watch', 'worked out again by a rebuild'],
  ['still_here', 'worked out again by a rebuild'],
  ['signature_token', 'holds for two minutes; who signed is inside the record'],
  ['enrolment_code', 'holds for ten minutes'],
  ['_prisma_migrations', 'a restored database applies its own migrations; the backup names those that it was made under'],
]);
