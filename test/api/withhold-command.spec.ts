import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { kinds } from '@bakehouse/records';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { withholdCommand } from '../../apps/api/src/withhold.command.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { GoldenHouse } from '../support/golden-house.js';

/** What a trace stands on: where goods came from, went, were held, released or called back. */
const groundOfTraces = new Set<string>(
  (
    'lot delivery flow lotIdentified inUse emptied moved counted make divided run makeEnded load loadLine batch release releasedSubject hold holdLifted ' +
    'departure returned onCounter recallCase recallScopeLot recallContact recallClosed receiptDecision disposition deviationClosed place instrument ' +
    'specification party person formulaVersion planVersion controlPoint'
  ).split(' '),
);

describe('the command that withholds old records', () => {
  let t: TestApp;
  let b: Bakehouse;
  let lot: string;
  let cleaned: string;
  let reading: string;
  let outside: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T04:00:00Z') });
    b = await Bakehouse.found(t);
    lot = await b.delivered('flour', at('01:00'));
    const make = await b.begun('white', at('02:30'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '100', lot)] }, { at: at('02:35') });
    const wet = { place: b.place('bench'), type: 'wet', chemical: 'soap', dilution: '1:50', contactSeconds: 300 } as const;
    cleaned = (await b.baker.record('cleaned-down', wet, { at: at('03:00'), words: { note: 'by hand' } })).id;
    reading = (await b.baker.record('reading-taken', b.reading('dough', 'make', make, '26'), { at: at('03:10') })).id;
    await b.baker.record('reading-taken', b.reading('dough', 'make', make, '25'), {
      at: at('03:10'),
      corrects: reading,
      words: { reason: 'misread' },
    });
    outside = (await b.baker.record('reading-taken', b.reading('dough', 'make', make, '40'), { at: at('03:20') })).id;
  });
  afterAll(() => t.close());

  const clock = new SettableClock('2033-01-10T12:00:00Z');
  const run = async (...words: string[]): Promise<{ code: number; said: string }> => {
    const said: string[] = [];
    const code = await withholdCommand(t.database, { words, say: (line) => said.push(line) }, clock);
    return { code, said: said.join('\n') };
  };
  const verified = async (): Promise<{ code: number; said: string }> => {
    const said: string[] = [];
    const code = await ledgerCommand(t.database, {
      words: ['verify'],
      say: (line) => said.push(line),
      config: { SEAL_KEY: undefined, DATA_DIR: '/nowhere' },
    });
    return { code, said: said.join('\n') };
  };
  const query = <R extends object = object>(sql: string, values: readonly unknown[] = []) =>
    connected(t.database.ownerUrl, (owner) => owner.query<R>(sql, [...values]));
  const bodies = async (): Promise<Set<string>> => {
    const { rows } = await query<{ id: string }>('SELECT id FROM entry JOIN entry_body USING (organisation, book, seq)');
    return new Set(rows.map((r) => r.id));
  };
  /** All of it but how many records there are, which grows. */
  const trace = async (): Promise<unknown> => ({ ...(await b.owner.caller.get(`/lots/${lot}/trace`).expect(200)).body, asOf: null });
  const asked = (kind: string, before = '2027-01-01') => ['--kind', kind, '--before', before, '--reason', 'six years are over'] as const;
  const yes = ['--yes', '--by', 'Lee Dehl'] as const;

  it('shows counts and changes nothing unless it is told to', async () => {
    const before = await bodies();
    const { code, said } = await run(...asked('reading-taken'));
    expect([code, said]).toEqual([0, expect.stringMatching(/Mill Lane: 2 would be withheld\nNothing was changed\./)]);
    expect((await run(...asked('reading-taken', '2026-11-25'))).said).toMatch(/Mill Lane: 0 would be withheld/);
    expect(await bodies()).toEqual(before);
  });

  it('refuses what traces stand on, what is no kind, and what it does not understand, with a sentence', async () => {
    const { code, said } = await run(...asked('delivery-received'), ...yes);
    expect([code, said]).toEqual([
      2,
      expect.stringMatching(/^Records of "delivery-received" are kept: traces, or other records, stand on them\./),
    ]);
    expect(await run(...asked('no-such-kind'))).toEqual({
      code: 2,
      said: expect.stringMatching(/^There is no kind of record "no-such-kind"/),
    });
    for (const words of [
      [],
      ['--kind', 'reading-taken'],
      [...asked('reading-taken', 'yesterday')],
      [...asked('reading-taken'), '--yes'],
      ['--all'],
    ])
      expect(await run(...words)).toEqual({ code: 2, said: expect.stringMatching(/^Say what is to be withheld/) });
    expect(await run(...asked('reading-taken'), '--yes', '--by', 'Nobody')).toEqual({
      code: 2,
      said: 'Nobody here is called "Nobody": give their id instead.',
    });
  });

  it('withholds bodies and words, whole chains, but for those that opened a deviation; records it; and the trace is the same', async () => {
    const traced = await trace();
    expect(traced).toMatchObject({ lots: expect.anything() });
    for (const kind of ['reading-taken', 'cleaned-down']) expect((await run(...asked(kind), ...yes)).code).toBe(0);
    const left = await bodies();
    expect([left.has(cleaned), left.has(reading), left.has(outside), left.has(lot)]).toEqual([false, false, true, false]);
    const { rows: words } = await query('SELECT FROM entry_word WHERE entry = $1', [cleaned]);
    expect(words).toEqual([]);
    expect((await query('SELECT FROM reading WHERE entry = $1', [outside])).rowCount).toBe(1);
    expect((await query('SELECT FROM clean_down')).rowCount).toBe(0);
    const told = await query<{ payload: unknown; reason: string; name: string }>(
      `SELECT convert_from(b.bytes, 'UTF8')::json #> '{input,payload}' AS payload, w.text AS reason, p.name
       FROM entry e JOIN entry_body b USING (organisation, book, seq) JOIN entry_word w ON w.entry = e.id AND w.key = 'reason' JOIN person p ON p.id = e.person
       WHERE e.kind = 'bodies-withheld' ORDER BY e.seq`,
    );
    const common = { reason: 'six years are over', name: 'Lee Dehl' };
    expect(told.rows).toEqual([
      { payload: { kind: 'reading-taken', before: '2027-01-01', bodies: 2 }, ...common },
      { payload: { kind: 'cleaned-down', before: '2027-01-01', bodies: 1 }, ...common },
    ]);
    expect(await trace()).toEqual(traced);
    const { code, said } = await verified();
    expect([code, said]).toEqual([0, expect.stringMatching(/body-withheld {2}entry [^]*No faults found\.$/)]);
    expect((await run(...asked('reading-taken'), ...yes)).said).toMatch(/Mill Lane: 0 withheld/);
  });

  it('may not be recorded by anybody through the door', async () => {
    const payload = { kind: 'reading-taken', before: '2020-01-01', bodies: 1 };
    expect(await b.owner.refused('bodies-withheld', payload, { words: { reason: 'to hide it' } })).toMatchObject({
      problem: 'not-permitted',
    });
  });

  it('has for every kind that it may withhold rows on which no trace stands', async () => {
    const house = new GoldenHouse();
    const may = kinds.filter((k) => k.withholdable);
    expect(may.map((k) => k.name)).toContain('reading-taken');
    for (const sample of await house.samples()) {
      const kind = may.find((k) => k.name === sample.kind);
      if (!kind) continue;
      const { raw, outcome, stamp } = house.book.wouldStore(kind.name, sample.payload, { at: at('05:12') });
      const read = kind.read(raw);
      const written = read.ok ? read.rows(outcome, stamp).map((r) => r.in) : ['unread'];
      expect([kind.name, written.filter((collection) => groundOfTraces.has(collection))]).toEqual([kind.name, []]);
    }
  });
});
