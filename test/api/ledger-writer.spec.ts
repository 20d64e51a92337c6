import { collections, WorkingSet, type Need } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { inHouse } from '../../apps/api/src/platform/database/index.js';
import { rebuild } from '../../apps/api/src/platform/ledger/rebuild.js';
import { ClearCut } from '../../apps/api/src/platform/ledger/clear-cut.js';
import { loadNeeds, statementName } from '../../apps/api/src/platform/ledger/store.js';
import type { Result } from '../../apps/api/src/platform/ledger/types.js';
import { verifyBytes, verifyForm, verifyProjections } from '../../apps/api/src/platform/ledger/verify.js';
import { entry, newId } from '../support/entries.js';
import { as, startLedger, type TestLedger } from '../support/ledger.js';
import { flourDelivery, flourSpecification, roomReading } from '../support/payloads.js';

let ledger: TestLedger;
beforeAll(async () => {
  ledger = await startLedger();
});
afterAll(() => ledger.stop());

const flour = newId();
const specification = (material: string) => entry('specification-accepted', flourSpecification(material), { at: '2026-11-01T08:00:00Z' });
const delivery = (lot: string, kg = '25', more = {}) => entry('delivery-received', flourDelivery(flour, lot, kg), more);
const reading = (figure: string, more = {}) => entry('reading-taken', roomReading(ledger.site.id, figure), more);
const atSite = (raw: unknown[], permissions?: Parameters<TestLedger['asker']>[0]): Promise<Result[]> =>
  ledger.writer.record(ledger.site, ledger.asker(permissions), raw);
const lots = async () => (await ledger.owner.query('SELECT id, mg, type, entry, seq FROM lot ORDER BY id')).rows;

describe('the write door', () => {
  it('records, and answers the same entry the same way when it comes again', async () => {
    expect(as(await ledger.writer.record(ledger.house, ledger.asker(), [specification(flour)]))).toEqual(['recorded']);
    const first = delivery(newId());
    const [a] = await atSite([first]);
    const [b] = await atSite([{ ...first, send: { attempt: 2 } }]);
    expect(a?.as).toBe('recorded');
    expect(b).toEqual({ ...a, as: 'already-recorded' });
    expect(
      as(
        await atSite([
          { ...first, deviceSeq: 1 },
          { ...first, doneBy: newId() },
        ]),
      ),
    ).toEqual(['malformed', 'id-reused']);
  });

  it('gives each entry its own result: the good ones beside bad ones are recorded', async () => {
    const good = reading('21.5');
    const results = await atSite([
      good,
      null,
      'x',
      7,
      { kind: 'no-such-kind' },
      reading('1e99'),
      { ...reading('3'), version: 9 },
      { ...reading('4'), payload: {} },
      reading('20', { at: '2031-01-01T00:00:00Z', clock: 'wall' }),
      specification(newId()),
      delivery(newId(), '-5'),
      { ...delivery(newId()), payload: { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [] } },
      good,
    ]);
    expect(as(results)).toEqual([
      'recorded',
      'unknown-kind',
      'unknown-kind',
      'unknown-kind',
      'unknown-kind',
      'malformed',
      'unknown-version',
      'malformed',
      'in-the-future',
      'wrong-book',
      'unacceptable-value',
      'malformed',
      'already-recorded',
    ]);
    expect(ledger.faults).toEqual([]);
    const kept = await ledger.owner.query("SELECT problem FROM set_aside WHERE problem = 'in-the-future'");
    expect(kept.rowCount).toBe(1);
  });

  it('lets an entry wait for what it comes after, and records it once that is here', async () => {
    const [first, second] = [reading('1'), reading('2')];
    const later = { ...second, after: [first.id] };
    expect(await atSite([later])).toEqual([{ as: 'waiting', id: later.id, waitingFor: [first.id] }]);
    expect(as(await atSite([first, later]))).toEqual(['recorded', 'recorded']);
  });

  it('refuses what comes after something that could not be read, with it or later, until that was sent again as it should be', async () => {
    const good = reading('3');
    const bad = { ...good, payload: {} };
    const [beside, later] = [
      { ...reading('4'), after: [bad.id] },
      { ...reading('5'), after: [bad.id] },
    ];
    const last = { ...reading('6'), after: [later.id] };
    expect(as(await atSite([bad, beside]))).toEqual(['malformed', 'depends-on-refused']);
    expect(as(await atSite([later]))).toEqual(['depends-on-refused']);
    expect(as(await atSite([last]))).toEqual(['depends-on-refused']);
    const kept = await ledger.owner.query('SELECT entry, problem FROM set_aside WHERE entry = ANY($1)', [[bad.id, beside.id, later.id]]);
    expect(new Map(kept.rows.map((r) => [r.entry, r.problem]))).toEqual(
      new Map([
        [bad.id, 'malformed'],
        [beside.id, 'depends-on-refused'],
        [later.id, 'depends-on-refused'],
      ]),
    );
    expect(as(await atSite([good]))).toEqual(['recorded']);
    expect(as(await atSite([bad, beside, later, last]))).toEqual(['malformed', 'recorded', 'recorded', 'recorded']);
  });

  it('refuses what comes after something that was refused in an earlier sending, and waits for what only met a fault', async () => {
    const refused = reading('7', { at: '2031-01-01T00:00:00Z', clock: 'wall' });
    expect(as(await atSite([refused]))).toEqual(['in-the-future']);
    expect(as(await atSite([{ ...reading('8'), after: [refused.id] }]))).toEqual(['depends-on-refused']);
    const [fault, next] = [newId(), reading('9')];
    await ledger.owner.query(
      `INSERT INTO set_aside SELECT organisation, book, $1, $1, "as", 'fault', NULL, person, received_at, body FROM set_aside LIMIT 1`,
      [fault],
    );
    expect(await atSite([{ ...next, after: [fault] }])).toMatchObject([{ as: 'waiting', waitingFor: [fault] }]);
  });

  it('lets an entry wait for every one of many, whichever is missing', async () => {
    const before = Array.from({ length: 150 }, () => reading('1'));
    const later = { ...reading('2'), after: before.map((e) => e.id) };
    expect(as(await atSite(before.slice(1)))).toEqual(Array(149).fill('recorded'));
    expect(await atSite([later])).toEqual([{ as: 'waiting', id: later.id, waitingFor: [before[0]?.id] }]);
    expect(as(await atSite([...before.slice(0, 1), later]))).toEqual(['recorded', 'recorded']);
  });

  it('lets nobody record what their role does not allow, and keeps what they sent', async () => {
    expect(as(await atSite([reading('5')], ['view']))).toEqual(['not-permitted']);
  });

  it('keeps text that PostgreSQL cannot hold out, and emoji and right-to-left names in', async () => {
    expect(as(await atSite([reading('6', { words: { note: 'a\u0000b' } }), reading('7', { words: { note: '\ud800' } })]))).toEqual([
      'malformed',
      'malformed',
    ]);
    expect(as(await atSite([reading('8', { words: { note: '🥐 مخبز \u202eabc' } })]))).toEqual(['recorded']);
  });

  it('replaces the rows of what a correction corrects, also when it comes late, and after a withdrawal', async () => {
    const lot = newId();
    const original = delivery(lot, '25');
    await atSite([original]);
    expect(as(await atSite([delivery(lot, '24.8', { corrects: original.id })]))).toEqual(['correction-without-reason']);
    const because = { corrects: original.id, words: { reason: 'typed from the wrong sack' } };
    expect(as(await atSite([delivery(lot, '24.8', because)]))).toEqual(['recorded']);
    expect((await lots()).find((l) => l.id === lot)?.mg).toBe('24800000');
    expect(as(await atSite([entry('entry-withdrawn', {}, because)]))).toEqual(['recorded']);
    expect((await lots()).find((l) => l.id === lot)?.type).toBe('withdrawn');
    expect(as(await atSite([delivery(lot, '24.9', because)]))).toEqual(['recorded']);
    expect((await lots()).find((l) => l.id === lot)?.mg).toBe('24900000');
    expect(
      as(
        await atSite([
          { ...reading('9'), corrects: original.id, words: because.words },
          { ...entry('entry-withdrawn', {}, { ...because, corrects: newId() }) },
        ]),
      ),
    ).toEqual(['malformed', 'nothing-to-correct']);
    expect(as(await atSite([reading('9', because)]))).toEqual(['correction-of-another-kind']);
  });

  it('answers 60 callers at once, each entry once, in an order without gaps', async () => {
    const entries = Array.from({ length: 60 }, (_, i) => reading(String(i)));
    const results = await Promise.all([...entries, ...entries].map((e) => atSite([e])));
    const seqs = results.flat().flatMap((r) => (r.as === 'recorded' ? [r.receipt.seq] : []));
    expect(new Set(seqs).size).toBe(60);
    const { rows } = await ledger.owner.query<{ n: string; last: string }>(
      'SELECT count(*) AS n, max(seq) AS last FROM entry WHERE book = $1',
      [ledger.site.id],
    );
    expect(Number(rows[0]?.last)).toBe(Number(rows[0]?.n) - 1);
  });

  it('verifies, and comes out of a rebuild as it was', async () => {
    const clean = await ledger.tenancy.inOrganisation(ledger.organisation, (client) => verifyBytes(client, ledger.site));
    expect(clean.findings).toEqual([]);
    const before = await lots();
    await ledger.tenancy.inOrganisation(ledger.organisation, async (client) => {
      expect(await verifyForm(client, ledger.site)).toEqual([]);
    });
    const { owner, organisation, site } = ledger;
    expect(await inHouse(owner, organisation, () => rebuild(owner, site))).toBe(clean.entries);
    expect(await lots()).toEqual(before);
  });

  it('tells a projection that was changed behind its back, and names the entry', async () => {
    const differences = () => ledger.tenancy.inOrganisation(ledger.organisation, (client) => verifyProjections(client, ledger.site));
    expect(await differences()).toEqual([]);
    const { rows } = await ledger.owner.query<{ entry: string }>(
      'UPDATE lot SET mg = mg + 1 WHERE id = (SELECT min(id::text)::uuid FROM lot) RETURNING entry',
    );
    expect(await differences()).toEqual([expect.objectContaining({ type: 'projection-differs', entry: rows[0]?.entry })]);
  });
});

describe('what a commit loads', () => {
  it('is asked for under a name of its own for each set of look-ups, however long: the driver takes one text a name', async () => {
    const load = (needs: readonly Need[]): Promise<void> =>
      ledger.tenancy.inOrganisation(ledger.organisation, (client) =>
        loadNeeds(
          client,
          ledger.organisation,
          [{ book: ledger.site, work: new WorkingSet(), needs }],
          new ClearCut('infinity', new Date()),
        ),
      );
    const [collection, value] = ['batch', newId()] as const;
    const first: Need[] = [
      { in: collection, id: value },
      { in: collection, by: 'run', value },
      { in: collection, by: 'make', value },
      { in: collection, by: 'product', value },
    ];
    await load(first);
    await load([...first, { in: collection, by: 'code', value }]);
    await load([...first, { in: collection, by: 'bakedOn', value: '2026-11-25' }]);
  });

  it('has names that PostgreSQL does not cut', () => {
    for (const [name, { by }] of Object.entries(collections)) expect(statementName(name, ['id', ...by]).length).toBeLessThan(64);
  });
});
