import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { bakehouse, night, tartVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

type Passed = PayloadFor<'stage-passed'>;
function withMakes() {
  const book = bakehouse();
  const make = () =>
    book.record(
      'make-begun',
      { formulaVersion: tartVersion, station: null, plan: null, bakeDay: '2026-10-25', plannedMg: null },
      { at: '2026-10-24T20:00:00+01:00' },
    ).id;
  const pass = (ids: string[], way: Passed['way'], at: string, step: Passed['step'] = 'retard') =>
    book.record('stage-passed', { subjects: ids.map((id) => ({ type: 'make' as const, id })), place: null, step, way }, { at });
  return { book, make, pass };
}

describe('a stage', () => {
  it('lasts as long as it lasts, over midnight and while the clocks go back', () => {
    const { make, pass } = withMakes();
    const id = make();
    pass([id], 'in', '2026-10-24T21:00:00+01:00');
    // 21:00 summer time to 07:00 winter time is ten hours on the wall and eleven for the dough.
    expect(pass([id], 'out', '2026-10-25T07:00:00+00:00').outcome).toEqual({ seconds: [11 * 3600] });
  });

  it('counts from the last time in, of the same step, for each on its own', () => {
    const { book, make, pass } = withMakes();
    const [a, b, c] = [make(), make(), make()];
    pass([a], 'in', night('01:00'));
    pass([a, b], 'in', night('02:00'));
    pass([c], 'in', night('02:00'), 'prove');
    expect(pass([a, b, c], 'out', night('02:30')).outcome).toEqual({ seconds: [1800, 1800, null] });
    expect(
      book
        .all('stage')
        .filter((s) => s.subject === a)
        .map((s) => s.way),
    ).toEqual(['in', 'in', 'out']);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('that is told late counts from the time in before it, not after', () => {
    const { make, pass } = withMakes();
    const id = make();
    pass([id], 'in', night('01:00'));
    pass([id], 'in', night('03:00'));
    expect(pass([id], 'out', night('02:00')).outcome).toEqual({ seconds: [3600] });
  });

  it('is refused for what is not there, and for one thing twice', () => {
    const { book, make } = withMakes();
    const id = make();
    const stage = (subjects: Passed['subjects'], place: string | null = null) =>
      book.refusal('stage-passed', { subjects, place, step: 'fold', way: 'once' }, { at: night('03:00') });
    expect(stage([{ type: 'run', id }])).toMatchObject({ problem: 'unknown-subject', field: 'payload.subjects.0' });
    expect(
      stage([
        { type: 'make', id },
        { type: 'make', id },
      ]),
    ).toMatchObject({ problem: 'unacceptable-value' });
    expect(stage([{ type: 'make', id }], uuid(0xfff))).toMatchObject({ problem: 'unknown-place' });
  });
});
