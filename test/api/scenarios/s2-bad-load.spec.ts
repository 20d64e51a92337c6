import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { EntryResult } from '@bakehouse/contracts';
import { derivedId } from '@bakehouse/kernel';
import { type Snapshot } from '@bakehouse/records';
import { SettableClock } from '../../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../../support/app.js';
import { at, Bakehouse, celsius, g, pieces } from '../../support/bakehouse.js';
import { verified } from '../../support/verified.js';
import { Offline } from '../../support/offline.js';
import { mulberry, shuffled } from '../../support/seeded.js';

const bakeDay = '2026-11-25';

/** One dough, three breads, one bad load, typed on a tablet without a network: figures of the trade's notes, S2. */
describe('one dough, three breads, one bad load, off line from 04:00', () => {
  const clock = new SettableClock('2026-11-25T03:45:00Z');
  let t: TestApp;
  let b: Bakehouse;
  let tablet: Offline;
  let division: Record<string, unknown>;
  let batches: { tins: string; bloomers: string; baps: string };
  let bloomerLoad: string;
  let waited: Record<'low' | 'acted', string>;
  let low: Record<string, unknown>;
  let results: Map<string, EntryResult[]>;
  let rows: Snapshot;

  beforeAll(async () => {
    t = await startTestApp({ clock });
    b = await Bakehouse.found(t);
    const make = await b.begun('white', at('02:30'), { station: b.place('mixer'), plannedMg: 41_450_000 });
    const lines = [b.into('flour', '25000'), b.into('water', '15000'), b.into('salt', '450'), b.into('yeast', '500'), b.into('oil', '500')];
    await b.baker.record('weighed-in', { make, lines }, { at: at('02:35') });
    const [tins, bloomers, baps] = [b.newId(), b.newId(), b.newId()];
    const run = (of: string, product: string, count: number, grams: string) => ({
      run: of,
      product,
      heads: null,
      pieces: count,
      scaling: g(grams),
    });
    division = (
      await b.baker.record(
        'divided',
        {
          make,
          quantity: null,
          oldDough: g('1200'),
          scrap: g('270'),
          runs: [
            run(tins, b.material('tin'), 20, '910'),
            run(bloomers, b.material('bloomer'), 12, '465'),
            run(baps, b.material('bap'), 216, '75'),
          ],
        },
        { at: at('03:40') },
      )
    ).outcome;

    tablet = new Offline(b.house, await b.night(), b.baker.caller.person);
    const load = (of: string, count: number, time: string, oven: 'deckOven' | 'rackOven' = 'deckOven') =>
      tablet.record(
        'load-in',
        {
          oven: b.place(oven),
          deck: null,
          plan: b.plan,
          bakeDay,
          setting: celsius('225'),
          minutes: 28,
          lines: [{ run: of, pieces: count }],
        },
        { at: at(time) },
      ).id;
    const tinLoads = [load(tins, 10, '04:10'), load(tins, 10, '04:12')];
    bloomerLoad = load(bloomers, 12, '04:44');
    const bapLoads = [load(baps, 108, '04:50', 'rackOven'), load(baps, 108, '05:05', 'rackOven')];
    const cores = tinLoads.map((l) => tablet.record('reading-taken', b.reading('tin-core', 'load', l, '95.1'), { at: at('04:41') }).id);
    const first = tablet.record('reading-taken', b.reading('bloomer-core', 'load', bloomerLoad, '87.9'), { at: at('05:12') });
    low = first.outcome;
    const deviation = derivedId(first.id, 'deviation');
    const bapCores = bapLoads.map((l) => tablet.record('reading-taken', b.reading('bap-core', 'load', l, '93.0'), { at: at('05:16') }).id);
    const counted = (of: string, loads: string[], count: number, code: string) =>
      tablet.record(
        'batch-counted-out',
        {
          run: of,
          loads,
          pieces: count,
          rejects: 0,
          code,
          bakedOn: bakeDay,
          bestBefore: '2026-11-28',
          useBy: null,
        },
        { at: at('05:18') },
      ).id;
    batches = {
      tins: counted(tins, tinLoads, 20, '6329-T'),
      bloomers: counted(bloomers, [bloomerLoad], 12, '6329-B'),
      baps: counted(baps, bapLoads, 216, '6329-P'),
    };
    const release = (batch: string, time: string, after: string[]) =>
      tablet.record('released-by-rule', { batch }, { at: at(time), after }).id;
    const released = [release(batches.tins, '05:19', cores), release(batches.baps, '05:19', bapCores)];
    const refusedNow = (time: string) => tablet.refused('released-by-rule', { batch: batches.bloomers }, { at: at(time) });
    waited = { low: refusedNow('05:19'), acted: '' };
    const back = tablet.record('load-stepped', { load: bloomerLoad, step: 'back-in', minutes: 5 }, { at: at('05:13') }).id;
    const action = tablet.record(
      'corrective-action-taken',
      { deviation, type: 'back-in-the-oven' },
      { at: at('05:13'), after: [first.id] },
    ).id;
    waited.acted = refusedNow('05:19');
    const again = tablet.record('reading-taken', b.reading('bloomer-core', 'load', bloomerLoad, '94.4'), { at: at('05:20') }).id;
    released.push(release(batches.bloomers, '05:25', [first.id, back, action, again]));
    tablet.record(
      'sent-out',
      {
        channel: 'round',
        customer: null,
        unattended: false,
        until: null,
        lines: Object.values(batches).map((lot) => ({ lots: [lot], quantity: null, how: 'counted' as const })),
      },
      { at: at('05:50'), after: released },
    );

    clock.set('2026-11-25T06:20:00Z');
    await b.signOnAgain();
    results = await sentInAnyOrder(b, tablet);
    rows = await b.night();
  });
  afterAll(() => t.close());

  it('sums to 41,450 g: 20 tins, 12 bloomers, 216 baps, 1,200 old dough and 270 scrap', () => {
    expect(division['sum']).toEqual({ inMg: 41_450_000, runsMg: 39_980_000, oldDoughMg: 1_200_000, scrapMg: 270_000, differenceMg: 0 });
    expect(rows.run.map((r) => r.pieces * r.scalingMg).sort((a, c) => a - c)).toEqual([12 * 465_000, 216 * 75_000, 20 * 910_000]);
    expect(rows.loadLine.map((l) => l.pieces).sort((a, c) => a - c)).toEqual([10, 10, 12, 108, 108]);
  });

  it('tells the tablet at once that 87.9 °C is under 93: that load alone waits, until it was back in and reads 94.4', () => {
    expect(low).toMatchObject({ verdict: 'outside', deviation: 'opened', holds: true, asked: { limit: { min: '93' } } });
    expect(waited).toEqual({ low: 'not-releasable', acted: 'not-releasable' });
    expect(rows.loadStep.map((s) => [s.load, s.step, s.minutes])).toEqual([[bloomerLoad, 'back-in', 5]]);
    expect(
      rows.reading
        .filter((r) => r.subject === bloomerLoad)
        .map((r) => [r.figure, r.verdict])
        .sort(),
    ).toEqual([
      ['87.9', 'outside'],
      ['94.4', 'within'],
    ]);
    expect(rows.deviation.map((d) => [d.subject, d.type])).toEqual([[bloomerLoad, 'limit']]);
  });

  it('releases all three by rule before the van leaves, and nothing left unreleased', () => {
    expect(rows.release.map((x) => [x.batch, x.way, x.findings])).toEqual(
      expect.arrayContaining(Object.values(batches).map((batch) => [batch, 'by-rule', []])),
    );
    expect(rows.release).toHaveLength(3);
    expect(
      rows.departure
        .filter((d) => d.channel === 'round')
        .map((d) => [d.lot, d.at])
        .sort(),
    ).toEqual(
      Object.values(batches)
        .map((lot) => [lot, '2026-11-25T05:50:00.000Z'])
        .sort(),
    );
  });

  it('back on line, the server says of every entry what the tablet said, and stores nothing twice', async () => {
    for (const { entry, outcome } of tablet.typed) {
      const told = results.get(entry.id) ?? [];
      expect(told.filter((r) => r.as === 'recorded')).toHaveLength(1);
      expect(told.at(-1)).toMatchObject({ as: 'already-recorded', outcome });
      expect(told.filter((r) => r.as === 'refused')).toEqual([]);
    }
    expect([...results.values()].flat().some((r) => r.as === 'waiting')).toBe(true); // the order was odd enough to matter
    const ids = [...b.baker.sent, ...tablet.typed.map((x) => x.entry)].map((e) => e.id);
    const { entries, faults } = await verified(t, b.house);
    expect([entries.get(b.site), faults]).toEqual([new Set(ids).size + Object.keys(b.places).length, []]);
  });

  it('shows the tablet’s rows as the server’s', () => {
    const sorted = (list: readonly { id: string }[]) => [...list].sort((x, y) => (x.id < y.id ? -1 : 1));
    for (const name of [
      'load',
      'loadLine',
      'loadStep',
      'reading',
      'deviation',
      'correctiveAction',
      'batch',
      'release',
      'departure',
      'flow',
    ] as const) {
      expect([name, sorted(rows[name])]).toEqual([name, sorted(tablet.rows[name])]);
    }
  });

  it('counts what went with the round in pieces once somebody says how many', async () => {
    const back = await b.baker.record(
      'goods-returned',
      {
        lot: batches.bloomers,
        departure: null,
        customer: null,
        quantity: pieces(2),
        how: 'counted',
        disposition: 'waste',
      },
      { at: at('06:15') },
    );
    expect(back.outcome).toEqual({ mg: null, pieces: 2 });
  });
});

/** Sends in seeded disorder, in small requests, some of them twice and two at a time, until nothing waits; and in the end everything once more. */
async function sentInAnyOrder(b: Bakehouse, { typed }: Offline): Promise<Map<string, EntryResult[]>> {
  const results = new Map<string, EntryResult[]>();
  const random = mulberry(20_261_125);
  const send = async (entries: readonly (typeof typed)[number]['entry'][]): Promise<void> => {
    for (const r of await b.baker.send(entries)) if (r.id !== null) results.set(r.id, [...(results.get(r.id) ?? []), r]);
  };
  for (let round = 0; round < 20; round += 1) {
    const left = shuffled(
      typed
        .map((x) => x.entry)
        .filter((e) => results.get(e.id)?.at(-1)?.as !== 'recorded' && results.get(e.id)?.at(-1)?.as !== 'already-recorded'),
      random,
    );
    if (left.length === 0) break;
    for (let i = 0; i < left.length; i += 4) {
      const some = left.slice(i, i + 4);
      await Promise.all([send([...some, ...some.slice(0, 1)]), ...(random() < 0.4 ? [send(some)] : [])]);
    }
  }
  await send(typed.map((x) => x.entry));
  return results;
}
