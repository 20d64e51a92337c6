import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { rebuild } from '../../apps/api/src/platform/ledger/rebuild.js';
import { tables } from '../../apps/api/src/platform/ledger/table.js';
import type { Finding } from '../../apps/api/src/platform/ledger/findings.js';
import { verifyBytes, verifyForm, verifyProjections } from '../../apps/api/src/platform/ledger/verify.js';
import { withhold } from '../../apps/api/src/platform/ledger/withhold.js';
import { inHouse, connected } from '../../apps/api/src/platform/database/index.js';
import type { BookRef } from '../../apps/api/src/platform/ledger/types.js';
import { entry, newId, rawEntry } from '../support/entries.js';
import { as, startLedger, type TestLedger } from '../support/ledger.js';
import { flourDelivery, flourSpecification, roomReading } from '../support/payloads.js';

let ledger: TestLedger;
const flour = newId();
beforeAll(async () => {
  ledger = await startLedger();
  const specification = entry('specification-accepted', flourSpecification(flour), { at: '2026-11-01T08:00:00Z' });
  expect(as(await ledger.writer.record(ledger.house, ledger.asker(), [specification]))).toEqual(['recorded']);
});
afterAll(() => ledger.stop());

async function freshBook(): Promise<BookRef> {
  const site = { ...ledger.site, id: newId() };
  await ledger.owner.query("INSERT INTO book (organisation, id, type, name, zone) VALUES ($1, $2, 'site', 'Site', 'Europe/London')", [
    ledger.organisation,
    site.id,
  ]);
  return site;
}

interface RowSeen {
  readonly in: string;
  readonly id: string;
  readonly entry: string;
  readonly row: unknown;
}
const rowsOf = async ({ id }: BookRef): Promise<readonly RowSeen[]> => {
  const each = [...tables.values()].map(
    ({ name }) => `SELECT '${name}' AS in, id, entry, to_jsonb(t) AS row FROM "${name}" t WHERE book = $1`,
  );
  return (await ledger.owner.query<RowSeen>(`${each.join(' UNION ALL ')} ORDER BY 1, 2`, [id])).rows;
};
const bytesAndForm = (book: BookRef): Promise<Finding[]> =>
  ledger.tenancy.inOrganisation(ledger.organisation, async (client) => [
    ...(await verifyBytes(client, book)).findings,
    ...(await verifyForm(client, book)),
  ]);
const projections = (book: BookRef): Promise<Finding[]> =>
  ledger.tenancy.inOrganisation(ledger.organisation, (client) => verifyProjections(client, book));
const types = (findings: readonly Finding[]): string[] => [...new Set(findings.map((f) => f.type))];

const content = (kind: Kind, variant: number, book: BookRef, own: string) => {
  if (kind === 'reading-taken') return roomReading(book.id, String(18 + variant));
  if (kind === 'deviation-reported') return { subjectType: 'site', subject: book.id, class: 'process-check', holds: variant % 2 === 0 };
  const { lines, ...delivery } = flourDelivery(flour, own, String(20 + variant));
  const more = Array.from({ length: variant % 3 }, () => flourDelivery(flour, newId()).lines[0]);
  return { ...delivery, lines: [...lines, ...more] };
};
const kindsTried = ['reading-taken', 'deviation-reported', 'delivery-received'] as const;
type Kind = (typeof kindsTried)[number];

const move = fc.oneof(
  { weight: 3, arbitrary: fc.record({ type: fc.constant('record' as const), kind: fc.constantFrom(...kindsTried), variant: fc.nat(5) }) },
  { weight: 4, arbitrary: fc.record({ type: fc.constant('correct' as const), chain: fc.nat(20), variant: fc.nat(5) }) },
  { weight: 3, arbitrary: fc.record({ type: fc.constant('withdraw' as const), chain: fc.nat(20) }) },
  {
    weight: 1,
    arbitrary: fc.record({ type: fc.constant('withhold' as const), mask: fc.array(fc.boolean(), { minLength: 1, maxLength: 8 }) }),
  },
);

async function play(book: BookRef, moves: readonly (typeof move extends fc.Arbitrary<infer M> ? M : never)[]): Promise<string[]> {
  const chains: { readonly root: string; readonly kind: Kind; readonly own: string }[] = [];
  const entries: string[] = [];
  const send = async (raw: { readonly id: string }): Promise<boolean> => {
    const [result] = await ledger.writer.record(book, ledger.asker(), [raw]);
    if (result?.as !== 'recorded') return false;
    entries.push(raw.id);
    return true;
  };
  for (const m of moves) {
    const chain = 'chain' in m ? chains[m.chain % Math.max(1, chains.length)] : undefined;
    const words = { reason: 'typed wrongly', what: 'a tap drips' };
    if (m.type === 'record') {
      const own = newId();
      const said = m.kind === 'deviation-reported' ? { words: { what: words.what } } : {};
      const raw = rawEntry(m.kind, content(m.kind, m.variant, book, own), said);
      if (await send(raw)) chains.push({ root: raw.id, kind: m.kind, own });
    } else if (m.type === 'correct' && chain) {
      const said = chain.kind === 'deviation-reported' ? words : { reason: words.reason };
      await send(rawEntry(chain.kind, content(chain.kind, m.variant, book, chain.own), { corrects: chain.root, words: said }));
    } else if (m.type === 'withdraw' && chain) {
      await send(entry('entry-withdrawn', {}, { corrects: chain.root, words: { reason: words.reason } }));
    } else if (m.type === 'withhold') {
      await withheld(
        book,
        entries.filter((_, i) => m.mask[i % m.mask.length]),
      );
    }
  }
  return entries;
}

const withheld = (book: BookRef, entries: readonly string[]): Promise<void> =>
  connected(ledger.ownerUrl, (client) => inHouse(client, ledger.organisation, () => withhold(client, book, entries)));

describe('bodies that are withheld', () => {
  it('bring no rows back and invent none, in any chain and in any order; what is left is made again as it stands', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(move, { minLength: 20, maxLength: 60 }),
        fc.array(fc.boolean(), { minLength: 1, maxLength: 12 }),
        async (moves, mask) => {
          const book = await freshBook();
          const entries = await play(book, moves);
          const before = await rowsOf(book);
          const gone = entries.filter((_, i) => mask[i % mask.length]);
          // Taken away behind the back of the rows: they are told to be from what is gone, and not to differ.
          await ledger.owner.query('DELETE FROM entry_body b USING entry e WHERE e.id = ANY($1) AND b.book = e.book AND b.seq = e.seq', [
            gone,
          ]);
          expect((await projections(book)).filter((f) => !f.detail.includes('came from a body that is gone'))).toEqual([]);
          await withheld(book, gone);
          const after = await rowsOf(book);
          const key = (r: RowSeen): string => `${r.in} ${r.id}`;
          expect(after.map(key).filter((k) => !before.some((r) => key(r) === k))).toEqual([]);
          const readable = before.filter((r) => !gone.includes(r.entry));
          expect(after).toEqual(expect.arrayContaining(readable.map((r) => expect.objectContaining({ in: r.in, id: r.id, row: r.row }))));
          expect(after.filter((r) => gone.includes(r.entry))).toEqual([]);
          await inHouse(ledger.owner, ledger.organisation, () => rebuild(ledger.owner, book));
          expect(await rowsOf(book)).toEqual(after);
          expect(await projections(book)).toEqual([]);
          expect(types(await bytesAndForm(book)).filter((t) => t !== 'body-removed')).toEqual([]);
          expect(ledger.faults).toEqual([]);
        },
      ),
      { numRuns: 4, endOnFailure: true },
    );
  });

  it('of a withdrawal leave what it took away where it is', async () => {
    const book = await freshBook();
    const lot = newId();
    const delivery = entry('delivery-received', flourDelivery(flour, lot));
    const withdrawal = entry('entry-withdrawn', {}, { corrects: delivery.id, words: { reason: 'a double tap' } });
    expect(as(await ledger.writer.record(book, ledger.asker(), [delivery, withdrawal]))).toEqual(['recorded', 'recorded']);
    const left = [{ in: 'lot', id: lot, entry: delivery.id, row: expect.objectContaining({ type: 'withdrawn' }) }];
    expect(await rowsOf(book)).toEqual(left);
    await withheld(book, [withdrawal.id]);
    expect(await rowsOf(book)).toEqual(left);
    expect((await ledger.owner.query('SELECT FROM entry_word WHERE entry = $1', [withdrawal.id])).rowCount).toBe(0);
  });

  it('of a correction do not bring back what it replaced', async () => {
    const book = await freshBook();
    const lot = newId();
    const delivery = entry('delivery-received', flourDelivery(flour, lot));
    const correction = entry('delivery-received', flourDelivery(flour, lot, '20'), { corrects: delivery.id, words: { reason: 'misread' } });
    expect(as(await ledger.writer.record(book, ledger.asker(), [delivery, correction]))).toEqual(['recorded', 'recorded']);
    await withheld(book, [correction.id]);
    expect(await rowsOf(book)).toEqual([
      { in: 'lot', id: lot, entry: delivery.id, row: expect.objectContaining({ type: 'withdrawn', mg: 25_000_000 }) },
    ]);
    const again = entry('delivery-received', flourDelivery(flour, lot, '21'), {
      corrects: delivery.id,
      words: { reason: 'weighed again' },
    });
    expect(as(await ledger.writer.record(book, ledger.asker(), [again]))).toEqual(['recorded']);
    expect((await rowsOf(book)).map((r) => r.entry)).toEqual(Array((await rowsOf(book)).length).fill(again.id));
    expect(await projections(book)).toEqual([]);
  });
});
