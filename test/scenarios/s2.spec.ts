import { proposedCode, proposedDates } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { bakehouse, baker, celsius, g, lead, materials, night, places, plan, points, whiteVersion } from '../fixtures/bakehouse.js';
import { uuid } from '../fixtures/driver.js';

/** One dough, three breads, one bad load, as the trade notes tell it. */
describe('one dough, three breads, one bad load', () => {
  const book = bakehouse();
  const bakeDay = '2026-11-25';
  const make = book.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay, plannedMg: 41_450_000 },
    { at: night('02:30') },
  ).id;
  book.record(
    'weighed-in',
    {
      make,
      lines: (
        [
          ['flour', '25000'],
          ['water', '15000'],
          ['salt', '450'],
          ['yeast', '500'],
          ['oil', '500'],
        ] as const
      ).map(([key, grams]) => ({
        material: materials[key],
        lot: null,
        quantity: g(grams),
        how: 'weighed' as const,
        type: 'ingredient' as const,
      })),
    },
    { at: night('02:35') },
  );
  const [tins, bloomers, baps] = [uuid(0xe10), uuid(0xe11), uuid(0xe12)];
  const run = (of: string, product: string, pieces: number, grams: string) => ({
    run: of,
    product,
    heads: null,
    pieces,
    scaling: g(grams),
  });
  const division = book.record(
    'divided',
    {
      make,
      quantity: null,
      oldDough: g('1200'),
      scrap: g('270'),
      runs: [run(tins, materials.tin, 20, '910'), run(bloomers, materials.bloomer, 12, '465'), run(baps, materials.bap, 216, '75')],
    },
    { at: night('03:40') },
  ).outcome;

  const load = (of: string, pieces: number, time: string, oven = places.deckOven) =>
    book.record(
      'load-in',
      {
        oven,
        deck: null,
        plan,
        bakeDay,
        setting: celsius('225'),
        minutes: 28,
        lines: [{ run: of, pieces }],
      },
      { at: night(time) },
    ).id;
  const core = (
    of: string,
    point: string,
    figure: string,
    time: string,
    options: {
      corrects?: string;
      words?: Record<string, string>;
    } = {},
  ) =>
    book.record(
      'reading-taken',
      {
        subjectType: 'load',
        subject: of,
        point,
        measured: 'core',
        parameter: 'core temperature',
        instrument: null,
        value: celsius(figure),
        yes: null,
        seconds: null,
      },
      { at: night(time), ...options },
    );
  const tinLoads = [load(tins, 10, '04:10'), load(tins, 10, '04:12')];
  const bloomerLoad = load(bloomers, 12, '04:44');
  const bapLoads = [load(baps, 108, '04:50', places.rackOven), load(baps, 108, '05:05', places.rackOven)];
  const tinReadings = tinLoads.map((l) => core(l, points.tinCore, '95.1', '04:40').id);
  const low = core(bloomerLoad, points.bloomerCore, '87.9', '05:12').outcome;
  bapLoads.forEach((l) => core(l, points.bapCore, '93.0', '05:16'));

  const countOut = (of: string, loads: string[], product: string, pieces: number) =>
    book.record(
      'batch-counted-out',
      {
        run: of,
        loads,
        pieces,
        rejects: 0,
        code: proposedCode(bakeDay, product),
        bakedOn: bakeDay,
        ...proposedDates(bakeDay, { lifeDays: 3, dateType: 'best-before' }),
      },
      { at: night('05:18') },
    ).id;
  const [tinBatch, bloomerBatch, bapBatch] = [
    countOut(tins, tinLoads, materials.tin, 20),
    countOut(bloomers, [bloomerLoad], materials.bloomer, 12),
    countOut(baps, bapLoads, materials.bap, 216),
  ];
  const release = (batch: string, time: string) => book.record('released-by-rule', { batch }, { at: night(time) }).outcome;
  release(tinBatch, '05:19');
  release(bapBatch, '05:19');
  const waiting = book.refusal('released-by-rule', { batch: bloomerBatch }, { at: night('05:19') });

  it('sums to 41,450 g with nothing left over', () => {
    expect(division['sum']).toEqual({ inMg: 41_450_000, runsMg: 39_980_000, oldDoughMg: 1_200_000, scrapMg: 270_000, differenceMg: 0 });
    const out = [...book.all('flow').filter((f) => f.source === make), ...book.all('departure').filter((d) => d.lot === make)];
    expect(out.map((o) => o.mg)).toEqual([18_200_000, 5_580_000, 16_200_000, 1_200_000, 270_000]);
  });

  it('finds 87.9 °C outside and holds that load alone', () => {
    expect(low).toMatchObject({ verdict: 'outside', deviation: 'opened', holds: true });
    expect(waiting).toMatchObject({ problem: 'not-releasable', acceptable: 'nothing open; there is: open deviation: core temperature' });
    expect(book.all('release').map((r) => r.batch)).toEqual([tinBatch, bapBatch]);
  });

  const deviation = book.all('deviation')[0]?.id ?? '';
  book.record('load-stepped', { load: bloomerLoad, step: 'back-in', minutes: 5 }, { at: night('05:13') });
  book.record('corrective-action-taken', { deviation, type: 'back-in-the-oven' }, { at: night('05:13') });
  const acted = book.refusal('released-by-rule', { batch: bloomerBatch }, { at: night('05:14') });
  const again = core(bloomerLoad, points.bloomerCore, '94.4', '05:20').outcome;

  it('waits until something was done and the core was read again', () => {
    expect(acted.problem).toBe('not-releasable');
    expect(again).toMatchObject({ verdict: 'within', deviation: 'none' });
    expect(release(bloomerBatch, '05:25')).toMatchObject({ rule: 4 });
    book.record(
      'sent-out',
      {
        channel: 'round',
        customer: null,
        unattended: false,
        until: null,
        lines: [tinBatch, bloomerBatch, bapBatch].map((lot) => ({ lots: [lot], quantity: null, how: 'counted' as const })),
      },
      { at: night('05:50') },
    );
    expect(book.all('deviation').map((d) => d.id)).toEqual([deviation]);
  });

  it('leaves the deviation open for the lead, who closes it signed; the baker closing it is self-review', () => {
    expect(book.all('deviationClosed')).toEqual([]);
    const closed = book.record(
      'deviation-closed',
      { deviation, staysOnHold: [] },
      { at: night('09:00'), person: lead, words: { review: 'seen' } },
    );
    expect(closed.outcome).toMatchObject({ subject: bloomerLoad, selfReview: false });
    expect(book.refusal('deviation-closed', { deviation, staysOnHold: [] }, { at: night('09:01'), person: baker }).problem).toBe(
      'already-closed',
    );
  });

  it('keeps released what was released when a core turns out to have been misread, and says so', () => {
    const [reading = '', subject = ''] = [tinReadings[0], tinLoads[0]];
    const corrected = core(subject, points.tinCore, '91.5', '04:40', {
      corrects: reading,
      words: { reason: 'read the wrong way round' },
    }).outcome;
    expect(corrected).toMatchObject({ verdict: 'outside', type: 'found-after-release', holds: true });
    expect(
      book
        .all('deviation')
        .filter((d) => d.subject === subject)
        .map((d) => d.type),
    ).toEqual(['found-after-release']);
    expect(book.all('release').map((r) => r.batch)).toContain(tinBatch);
  });

  it('comes out the same from the stored bytes alone', () => {
    expect(book.rebuilt()).toEqual(book.snapshot());
  });
});
