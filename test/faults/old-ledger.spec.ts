import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { kindOf } from '@bakehouse/records';
import { connected, prepareDatabase, serviceUrlFrom } from '../../apps/api/src/platform/database/index.js';
import { ensureServiceRole } from '../../apps/api/src/platform/database/roles.js';
import { createEmptyDatabase, type TestDatabase } from '../support/database.js';
import { makeOldLedger, oldEntries } from '../support/old-ledger.js';

let database: TestDatabase;
beforeAll(async () => {
  database = await createEmptyDatabase();
  await connected(database.ownerUrl, (owner) => ensureServiceRole(owner, serviceUrlFrom(database.ownerUrl)));
  await makeOldLedger(database.ownerUrl);
});
afterAll(() => database.drop());

const everything = (): Promise<unknown> =>
  connected(database.ownerUrl, async (owner) => {
    const { rows } = await owner.query(
      'SELECT e.id, e.kind, e.leaf, b.bytes FROM entry e JOIN entry_body b USING (organisation, book, seq) ORDER BY e.seq',
    );
    const tables = await owner.query("SELECT table_name FROM information_schema.tables WHERE table_schema = 'public' ORDER BY 1");
    return { rows, tables: tables.rows };
  });

describe('a ledger of the form before the present words', () => {
  it('is refused with a sentence that says why and what to do, and nothing in it is changed', async () => {
    const before = await everything();
    await expect(prepareDatabase(database.ownerUrl)).rejects.toThrow(
      /an earlier form.*other names.*Nothing in it was changed.*another DATA_DIR or another database/s,
    );
    expect(await everything()).toEqual(before);
  });

  it('has kinds that nobody reads by mistake for those of today', () => {
    const renamed = oldEntries().filter((e) => kindOf(e) === undefined);
    expect(renamed.map((e) => e.kind).sort()).toEqual([
      'action-taken',
      'formula-baked-by-from',
      'formula-put-away',
      'goods-came-back',
      'lot-decided',
      'lot-freed',
      'lot-held',
      'plan-put-in-force',
      'point-not-taken',
      'probe-checked',
      'recall-call-made',
      'went-wrong',
    ]);
  });
});
