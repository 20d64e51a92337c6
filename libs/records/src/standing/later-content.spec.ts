import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { concernsOf, flowsInto, heldBy, workingSetOf } from '@bakehouse/records';
import { bakehouse, delivered, g, materials, night, places, plan, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

const [clean, suspect, monday, tuesday, wednesday, dough, weighing, cleaning] = [1, 2, 3, 4, 5, 6, 7, 8].map((n) => uuid(0xe00 + n)) as [
  string,
  string,
  string,
  string,
  string,
  string,
  string,
  string,
]; // eight of eight
const tuesdaysHold = uuid(0xe20);

/** What happened in the night, each to be recorded whenever somebody gets to it. */
function facts({ cleanedOut = false, namedAt = '02:10' } = {}) {
  const book = bakehouse();
  const lines = [delivered(clean, materials.flour), delivered(suspect, materials.flour)];
  book.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines }, { at: night('00:10') });
  const begun = { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg: null };
  book.record('make-begun', begun, { at: night('00:20'), id: dough });
  const fill = (lot: string, id: string, time: string) => () =>
    book.record(
      'vessel-topped-up',
      {
        vessel: places.tub,
        material: materials.flour,
        kept: null,
        keptHow: 'estimated',
        added: [{ material: materials.flour, lot, quantity: g('1000'), how: 'weighed' }],
      },
      { at: night(time), id },
    );
  fill(clean, monday, '01:00')();
  if (cleanedOut) book.record('vessel-cleaned-out', { vessel: places.tub }, { at: night('01:30'), id: cleaning });
  const line = { material: materials.flour, lot: monday, quantity: g('300'), how: 'weighed', type: 'ingredient' } as const;
  const others = [
    fill(suspect, tuesday, '02:00'),
    fill(clean, wednesday, '03:00'),
    () => book.record('weighed-in', { make: dough, lines: [line] }, { at: night(namedAt), id: weighing }),
    () => book.record('hold-placed', { lot: suspect, deviation: null }, { at: night('04:00'), id: tuesdaysHold }),
  ];
  const state = () => workingSetOf(book.snapshot());
  return { book, others, state };
}
const answers = (all: ReturnType<typeof facts>) => {
  const state = all.state();
  return {
    into: flowsInto(state, dough).map((f) => [f.source, f.mg, f.certain, f.anyOf !== null]),
    reached:
      concernsOf(state, [dough])
        .get(dough)
        ?.map((r) => [r.concern.type, r.concern.lot, r.certain]) ?? [],
    held: heldBy(state, [all.book.all('hold')[0]?.id ?? ''], [suspect]).map((l) => l.id),
  };
};

describe('a dough that names a content that was over by then', () => {
  const inOrder = facts();
  for (const record of inOrder.others) record();

  it('holds that or the content that was in the vessel then: one amount, and what was held of it reaches the dough', () => {
    expect(answers(inOrder)).toMatchObject({
      into: [
        [monday, 300_000, false, true],
        [tuesday, 300_000, false, true],
      ],
      reached: [['held', suspect, false]],
      held: expect.arrayContaining([dough]),
    });
  });

  it.each([false, true])('is told the same in whatever order the records came (cleaned out before: %s)', (cleanedOut) => {
    const told = facts({ cleanedOut });
    for (const record of told.others) record();
    fc.assert(
      fc.property(
        fc.shuffledSubarray(
          told.others.map((_, i) => i),
          { minLength: told.others.length },
        ),
        (order) => {
          const again = facts({ cleanedOut });
          for (const i of order) again.others[i]?.();
          expect(answers(again)).toEqual(answers(told));
        },
      ),
      { numRuns: 60 },
    );
  });

  it('holds the content that it names where that was in the vessel', () => {
    const before = facts({ namedAt: '01:59' });
    for (const record of before.others) record();
    expect(answers(before)).toMatchObject({ into: [[monday, 300_000, true, false]], reached: [] });
  });

  it('holds no later one any more once the weighing or the top-up is withdrawn', () => {
    const all = facts();
    for (const record of all.others) record();
    all.book.record('entry-withdrawn', {}, { at: night('05:00'), corrects: tuesday, words: { reason: 'not so' } });
    expect(flowsInto(all.state(), dough)).toMatchObject([{ source: monday, certain: true, anyOf: null }]);
  });
});
