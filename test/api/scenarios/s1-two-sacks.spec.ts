import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { openBetween, proposedLines, type ProposedLine, type Snapshot } from '@bakehouse/records';
import { lookupOf, leftInLot, makeView } from '@bakehouse/views';
import { SettableClock } from '../../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../../support/app.js';
import { at, Bakehouse, celsius, g } from '../../support/bakehouse.js';

/** Two sacks, one dough: figures of the trade's notes, S1. */
describe('two sacks over HTTP', () => {
  let t: TestApp;
  let b: Bakehouse;
  let q: string;
  let r: string;
  let make: string;
  let taps: number;
  let proposed: ProposedLine[];
  let night: Snapshot;
  let mixed: Record<string, unknown>;
  let reading: Record<string, unknown>;

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T02:52:00Z') });
    b = await Bakehouse.found(t);
    [q, r] = [await b.delivered('flour', at('01:00')), await b.delivered('flour', at('01:00'))];
    await b.baker.record(
      'lot-opened',
      { station: b.place('mixer'), material: b.material('flour'), lot: q, beside: false },
      { at: at('01:10') },
    );
    const early = await b.begun('white', at('01:20'));
    await b.baker.record('weighed-in', { make: early, lines: [b.into('flour', '8600', q)] }, { at: at('01:25') }); // 25 kg less 8.6: 16.4 kg left
    make = await b.begun('white', at('02:30'), { station: b.place('mixer'), plannedMg: 41_450_000 });

    const before = b.baker.sent.length;
    await b.baker.record('lot-emptied', { station: b.place('mixer'), lot: q, left: null }, { at: at('02:35') });
    await b.baker.record(
      'lot-opened',
      { station: b.place('mixer'), material: b.material('flour'), lot: r, beside: false },
      { at: at('02:35') },
    );
    taps = b.baker.sent.length - before;

    const rows = await b.night();
    const lookup = lookupOf(rows, '2026-11-25T02:36:00.000Z', 'Europe/London');
    const lines = rows.formulaVersion.find((v) => v.id === b.formula('white'))?.content.lines ?? [];
    const open = openBetween(rows.inUse, rows.emptied, '2026-11-25T02:30:00.000Z', '2026-11-25T02:36:00.000Z');
    proposed = proposedLines(lines, 41_450_000, open, (lot) => leftInLot(lookup, lot));
    await b.baker.record(
      'weighed-in',
      {
        make,
        lines: proposed.map(({ material, lot, mg, how }) => ({
          material,
          lot,
          how,
          quantity: mg === null ? null : g(String(mg / 1000)),
          type: 'ingredient' as const,
        })),
      },
      { at: at('02:36') },
    );

    mixed = (
      await b.baker.record(
        'mixed',
        {
          make,
          minutesSlow: 4,
          minutesFast: 9,
          water: celsius('19'),
          flour: celsius('21'),
          room: celsius('24'),
          dough: celsius('28.5'),
        },
        { at: at('02:50') },
      )
    ).outcome;
    reading = (await b.baker.record('reading-taken', b.reading('dough', 'make', make, '28.5'), { at: at('02:50') })).outcome;
    night = await b.night();
  });
  afterAll(() => t.close());

  it('shows Q 16,400 g guessed and R 8,600 g in the make, from two taps and no lot typed', () => {
    const row = night.make.find((m) => m.id === make);
    const view = row && makeView(lookupOf(night, '2026-11-25T02:52:00.000Z', 'Europe/London'), row);
    const taken = (lot: string) => view?.lines.filter((l) => l.lot === lot).map((l) => [l.mg, l.how]);
    expect([taps, taken(q), taken(r), view?.inMg]).toEqual([2, [[16_400_000, 'estimated']], [[8_600_000, 'by-recipe']], 41_450_000]);
  });

  it('finds 28.5 °C outside 26 ± 1.5: a note, and no hold', () => {
    expect(reading).toMatchObject({
      verdict: 'outside',
      class: 'process-check',
      deviation: 'opened',
      holds: false,
      asked: { limit: { min: '24.5', max: '27.5', unit: 'degC' } },
    });
    expect(night.deviation.map((d) => [d.subject, d.class, d.holds])).toEqual([[make, 'process-check', false]]);
    expect(night.hold).toEqual([]);
  });

  it('gives a factor of 21.5 against 14 expected, and offers nine fast minutes, planned six', () => {
    expect(mixed).toMatchObject({ friction: 21_500, expected: 14_000, causes: [{ what: 'fast-minutes', actual: 9, planned: 6 }] });
    expect(night.mixed.map((m) => [m.frictionMilli, m.expectedFrictionMilli])).toEqual([[21_500, 14_000]]);
  });

  it('traces either sack to the dough, with its amount', async () => {
    for (const [lot, mg] of [
      [q, 16_400_000],
      [r, 8_600_000],
    ] as const) {
      const { body } = await b.baker.caller.get(`/lots/${lot}/trace`).expect(200);
      expect(body.lots.find((l: { id: string }) => l.id === make)).toMatchObject({ certain: true, steps: 1, by: { from: lot, mg } });
    }
  });
});
