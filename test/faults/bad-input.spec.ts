import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { EntryResult } from '@bakehouse/contracts';
import { problems } from '@bakehouse/kernel';
import { kinds } from '@bakehouse/records';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { setAsideLimits } from '../../apps/api/src/platform/ledger/set-aside.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { everyKind, type Sample } from '../support/every-kind.js';
import { leavesOf, replaced } from '../support/mutate.js';
import type { Caller } from '../support/people.js';
import { mulberry, shuffled } from '../support/seeded.js';
import { signedBy } from '../support/signed.js';
import { size } from '../support/size.js';
import { verified } from '../support/verified.js';

let t: TestApp;
let b: Bakehouse;
let everybody: Caller;
let samples: () => Sample[];
let foreign: readonly string[];

/** What is refused here is more than anybody sends in a day; how much is kept of it is not what is asked. */
const usual = { ...setAsideLimits };
beforeAll(async () => {
  Object.assign(setAsideLimits, { entriesOfDay: 1_000_000, bytesOfDay: 1e12, entriesOfHouse: 1_000_000 });
  t = await startTestApp({ clock: new SettableClock('2026-11-25T04:00:00Z') });
  b = await Bakehouse.found(t);
  samples = await everyKind(b);
  everybody = await b.house.signedOn('Ev Rybody', ['baker', 'manager', 'food-safety-lead', 'administrator']);
  const other = await Bakehouse.found(t);
  const others = await everyKind(other);
  foreign = [...new Set(JSON.stringify(others().map((s) => s.payload)).match(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g))];
});
afterAll(async () => {
  Object.assign(setAsideLimits, usual);
  await t.close();
});

/** By then what a case holds was weighed into the batch's dough; and no role may say that bodies are withheld, or that a PIN was set. */
const refusedAtLast = new Map([
  ['released-by-exception', 'held-by-recall'],
  ['bodies-withheld', 'not-permitted'],
  ['words-erased', 'not-permitted'],
  ['pin-set', 'not-permitted'],
]);

type Entry = Record<string, unknown> & { id: string };
const entryOf = (sample: Sample): Entry => b.house.rawEntry(sample);
const bookOf = (kind: string): string =>
  kinds.find((k) => k.name === kind)?.book === 'organisation' ? '/organisation/entries' : `/sites/${b.site}/entries`;

const signed = (entries: readonly Entry[]): Promise<Entry[]> => signedBy(b.house, everybody.person, entries);

async function sent(path: string, entries: readonly unknown[]): Promise<EntryResult[]> {
  const results: EntryResult[] = [];
  for (let i = 0; i < entries.length; i += 200) {
    const { status, body, text } = await everybody.post(path, entries.slice(i, i + 200));
    if (status !== 200) throw new Error(`${path} answered ${status}: ${text.slice(0, 400)}`);
    results.push(...(body as EntryResult[])); // the route's contract
  }
  return results;
}

/** A refusal says what to do, in a code that is known; nobody hears of a fault. */
function expectSensible(result: EntryResult | undefined, what: unknown): void {
  const told = JSON.stringify(result);
  const of = JSON.stringify(what)?.slice(0, 600);
  if (result?.as !== 'refused') {
    expect([of, result?.as]).toEqual([of, expect.stringMatching(/^(recorded|already-recorded|waiting)$/)]);
    return;
  }
  expect([of, result.problem]).not.toEqual([of, 'fault']);
  expect([of, Object.keys(problems).includes(result.problem), result.title.length > 5, result.detail.length > 15]).toEqual([
    of,
    true,
    true,
    true,
  ]);
  expect(told).not.toMatch(/node_modules|\.ts:|\.js:|Error:|\bat \//);
}

async function expectAllSensible(entries: readonly Entry[]): Promise<EntryResult[]> {
  const all = await signed(entries);
  const results: EntryResult[] = [];
  for (const path of new Set(all.map((e) => bookOf(String(e['kind']))))) {
    const these = all.filter((e) => bookOf(String(e['kind'])) === path);
    const told = await sent(path, these);
    told.forEach((r, i) => {
      expectSensible(r, these[i]);
    });
    results.push(...told);
  }
  return results;
}

/** After these, what they end is not there for the others. */
const endings = new Set([
  'person-left',
  'role-taken-away',
  'place-out-of-use',
  'instrument-out-of-use',
  'party-stopped',
  'formula-retired',
  'recall-closed',
  'access-ended',
  'deviation-closed',
]);

/** How many absurd values each field is given. */
const tried = Number(process.env['HARD'] ?? size(6, 22));

const huge = 'a'.repeat(6000);
const absurd: readonly unknown[] = [
  null,
  true,
  '',
  'x',
  -1,
  0,
  1.5,
  1e21,
  9_007_199_254_740_991,
  -9_007_199_254_740_991,
  1e308,
  'NaN',
  'Infinity',
  '1e400',
  '-0',
  '0',
  '0.0000001',
  '999999999.999999',
  '-999999999',
  huge,
  'nul \u0000',
  '\ud800',
  '🥐 عربى \u202eמאפה',
  '__proto__',
  '0000-01-01',
  '9999-12-31',
  '2026-02-30',
  '0000-01-01T00:00:00Z',
  '9999-12-31T23:59:59-14:00',
  '01a2109e-0080-71ac-98b3-9859d1f7cd0b',
  'furlong',
  'kg',
  'degC',
  'pH',
  [],
  {},
  [[]],
  { type: 'x' },
  ['x'],
];

describe('every kind', () => {
  it('takes absurd values of every field, one at a time, as refusals or as what was observed: never as a fault', async () => {
    const random = mulberry(7);
    const bad: Entry[] = [];
    for (const sample of samples()) {
      for (const path of leavesOf(sample.payload)) {
        // an id that nothing has, in every field: only by one is something asked for that is not there
        for (const value of [b.newId(), ...shuffled(absurd, random).slice(0, tried)])
          bad.push(entryOf({ ...sample, payload: replaced(sample.payload, path, value) }));
      }
    }
    const results = await expectAllSensible(bad);
    expect(results.length).toBeGreaterThan(2000);
    const codes = new Set(results.map((r) => (r.as === 'refused' ? r.problem : r.as)));
    expect([...codes]).toEqual(expect.arrayContaining(['recorded', 'malformed', 'unacceptable-value', 'unknown-lot', 'unknown-material'])); // it came past the door
  });

  it('takes an absurd envelope round a good payload the same way', async () => {
    const random = mulberry(11);
    const bad = samples()
      .filter((s) => !endings.has(s.kind))
      .flatMap((sample) => {
        const entry = entryOf({ ...sample, words: { ...sample.words, note: 'a word' } });
        const {
          payload: _payload,
          kind: _kind,
          ...envelope
        }: Record<string, unknown> = { ...entry, after: [b.newId()], send: { attempt: 1 } };
        return leavesOf(envelope).flatMap((path) =>
          shuffled(absurd, random)
            .slice(0, size(3, 9))
            .map((value) => replaced({ ...entry, after: [], send: { attempt: 1 }, id: b.newId() }, path, value)),
        );
      });
    const results = await expectAllSensible(bad);
    expect(results.length).toBeGreaterThan(2000);
  });

  it('knows nothing of another business: none of its ids is taken where one of ours is asked for', async () => {
    const taken: string[] = [];
    for (const sample of samples().filter((x) => x.kind !== 'entry-withdrawn')) {
      const paths = leavesOf(sample.payload).filter(
        (path) => isId(valueAt(sample.payload, path)) && !chosenByTheDevice.has(named(sample.kind, path)),
      );
      const bad = paths.flatMap((path) =>
        foreign.slice(0, size(30, 200)).map((id) => ({ path, entry: entryOf({ ...sample, payload: replaced(sample.payload, path, id) }) })),
      );
      const results = await sent(bookOf(sample.kind), await signed(bad.map((x) => x.entry)));
      results.forEach((r, i) => {
        expectSensible(r, bad[i]);
        if (r.as === 'recorded') taken.push(named(sample.kind, bad[i]?.path ?? []));
      });
    }
    expect([...new Set(taken)].sort()).toEqual([]);
    const withdrawal = entryOf({ kind: 'entry-withdrawn', payload: {}, corrects: foreign[0] ?? '', words: { reason: 'not ours' } });
    expect(await sent(`/sites/${b.site}/entries`, [{ ...withdrawal, corrects: b.newId() }])).toMatchObject([
      { as: 'refused', problem: 'nothing-to-correct' },
    ]);
  });

  it('is recorded as its sample stands, after all that', async () => {
    const all = samples();
    for (const sample of [...all.filter((s) => !endings.has(s.kind)), ...all.filter((s) => endings.has(s.kind))]) {
      const [result] = await sent(bookOf(sample.kind), await signed([entryOf(sample)]));
      // One of the values that may have been tried for what stays on hold, an empty list, is a good one: then it was closed with that.
      if (result?.as === 'refused' && result.problem === 'already-closed' && sample.kind.endsWith('-closed')) continue;
      expect([sample.kind, result?.as === 'refused' ? result : 'recorded']).toEqual([
        sample.kind,
        refusedAtLast.has(sample.kind) ? expect.objectContaining({ problem: refusedAtLast.get(sample.kind) }) : 'recorded',
      ]);
    }
  });

  it('comes out as its bytes say, and every view still answers', async () => {
    expect((await verified(t, b.house)).faults).toEqual([]);
    await everybody.get(`/sites/${b.site}/night`).expect(200);
    await everybody.get('/recalls').expect(200);
    const { rows } = await connected(t.database.ownerUrl, (client) =>
      client.query<{ id: string }>('SELECT id FROM lot WHERE organisation = $1 ORDER BY id', [b.house.organisation]),
    );
    for (const { id } of rows.filter((_, i) => i % size(4, 1) === 0))
      for (const way of ['forward&hazard=microbiological', 'backward'])
        await everybody.get(`/lots/${id}/trace?direction=${way}`).expect(200);
  });
});

/** Ids that a device makes up, so that any new one will do. */
const chosenByTheDevice = new Set([
  'specification-accepted material',
  'party-accepted party',
  'formula-approved formula',
  'plan-approved series',
  'delivery-received lines.lot',
  'divided runs.run',
]);
const named = (kind: string, path: readonly (string | number)[]): string =>
  `${kind} ${path.filter((key) => typeof key === 'string').join('.')}`;

const isId = (value: unknown): boolean => typeof value === 'string' && /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(value);
const valueAt = (value: unknown, path: readonly (string | number)[]): unknown =>
  path.reduce<unknown>(
    (at, key) => (typeof at === 'object' && at !== null ? (at as Record<string | number, unknown>)[key] : undefined),
    value,
  );
