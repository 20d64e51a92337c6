import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { mulberry, shuffled } from '../support/seeded.js';
import { startLedger, type TestLedger } from '../support/ledger.js';
import { verified } from '../support/verified.js';
import { balanceByRows } from './balances.js';
import { SimulatedHouse, type Sent } from './house.js';
import { Model } from './model.js';
import { Moves } from './moves.js';

const moves = 260;

/** Random records, corrections, withdrawals and late arrivals, sent a few at a time, against bookkeeping of the simplest type. The seed is the test's name. */
describe.each([1, 20_261_125, 4_107, 77])('a ledger and a list of what happened, seed %i', (seed) => {
  let ledger: TestLedger;
  const model = new Model();
  const sent: Sent[] = [];
  const outcomes = new Map<string, unknown>();
  const projected: (readonly [string, string, string])[] = [];

  beforeAll(async () => {
    ledger = await startLedger();
    const random = mulberry(seed);
    const drawn = new Moves(await SimulatedHouse.found(ledger), random);
    while (sent.length < moves) {
      const batch = Array.from({ length: 1 + Math.floor(random() * 9) }, () => {
        const move = drawn.next(model);
        if (move.projected === 'recorded') move.apply(model); // in order: what comes next in the same request already sees it
        for (const root of model.roots) {
          const h = model.of(root);
          if (h) drawn.contents.set(root, h);
        }
        return move;
      });
      const results = await ledger.writer.record(
        ledger.site,
        ledger.asker(),
        batch.map((m) => m.sent),
      );
      for (const [i, move] of batch.entries()) {
        const result = results[i];
        projected.push([move.sent.kind, move.projected, result?.as ?? 'nothing']);
        if (result?.as !== 'recorded') continue;
        sent.push(move.sent);
        outcomes.set(move.sent.id, { receipt: result.receipt, outcome: result.outcome });
      }
    }
  });
  afterAll(() => ledger.stop());

  const inLedger = {
    database: {
      get ownerUrl(): string {
        const { user, password, host, port, database } = ledger.owner;
        return `postgresql://${user}:${password}@${host}:${port}/${database}`;
      },
    },
  };

  it('does with each record what the list projected, corrections and withdrawals among them', () => {
    expect(projected.filter(([, expected, was]) => expected !== was)).toEqual([]);
    for (const kind of ['delivery-received', 'weighed-in', 'sent-out', 'goods-returned', 'lot-counted', 'entry-withdrawn'])
      expect(projected.map(([k]) => k)).toContain(kind);
    expect(projected.some(([, expected]) => expected === 'refused')).toBe(true);
    expect(sent.filter((e) => 'corrects' in e).length).toBeGreaterThan(20);
  });

  it('has every lot’s balance as the list has it, to the gram', async () => {
    expect(model.lots.length).toBeGreaterThan(5);
    for (const lot of model.lots) {
      const expected = model.balance(lot);
      expect({ lot, ...(await balanceByRows(ledger, lot)) }).toEqual({ lot, ...expected, left: expected.onHand });
    }
  });

  it('verifies, and its projections made again are the same', async () => {
    const { entries, faults } = await verified(inLedger, ledger);
    expect(faults).toEqual([]);
    expect(entries.get(ledger.site.id)).toBe(sent.length + 4); // and the four makes
  });

  it('sent once more, in any order and a few at a time, changes nothing and says the same', async () => {
    const before = await rows(ledger);
    const again = shuffled(sent, mulberry(seed + 1));
    for (let i = 0; i < again.length; i += 50) {
      const some = again.slice(i, i + 50);
      const results = await Promise.all([
        ledger.writer.record(ledger.site, ledger.asker(), some),
        ledger.writer.record(ledger.site, ledger.asker(), some.slice(0, 5)),
      ]);
      for (const result of results.flat())
        expect(result).toEqual({ as: 'already-recorded', id: result.id, ...(outcomes.get(result.id ?? '') as object) }); // kept from the first answer
    }
    expect(await rows(ledger)).toEqual(before);
  });
});

/** Size of the book and a hash over everything that the simulation's projections hold. */
async function rows({ owner, organisation }: TestLedger): Promise<unknown> {
  const tables = ['entry', 'entry_word', 'lot', 'flow', 'departure', 'returned', 'counted', 'deviation', 'delivery'];
  const hashes = tables.map(
    (t) => `(SELECT md5(coalesce(string_agg(x::text, '|' ORDER BY x::text), '')) FROM ${t} x WHERE organisation = $1) AS ${t}`,
  );
  return (await owner.query(`SELECT ${hashes.join(', ')}`, [organisation])).rows[0];
}
