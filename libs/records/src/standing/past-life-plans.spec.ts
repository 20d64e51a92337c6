import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { night, places } from '../../../../test/fixtures/bakehouse.js';
import { uuid, type Book } from '../../../../test/fixtures/driver.js';
import { accept, against, approve, cream, iso, kitchen } from '../../../../test/fixtures/past-life-house.js';

const at = (time: string): string => `2026-11-25T${time}:00.000Z`;
/** Somebody reports a lot past its life and signs that it may be used, it alone. */
function accepted(book: Book, lot: string, time: string): void {
  const about = { subjectType: 'make', subject: lot, class: 'process-check', holds: false } as const;
  const { id } = book.record('deviation-reported', about, { at: night(time), words: { what: 'kept too long' } });
  accept(book, id, 'this-alone', null, time);
}

describe('what a plan put on hold past its life', () => {
  it('stays on hold under a plan that only warns, until somebody has signed a decision about it', () => {
    const { book, begun, opened } = kitchen();
    const filling = begun(night('01:00'));
    opened(night('01:00'));
    approve(book, { since: at('14:00') });
    for (const lot of [filling, cream]) expect(against(book, lot, at('14:01'))).toEqual(['past-life']);
    accepted(book, filling, '15:00');
    expect([filling, cream].map((lot) => against(book, lot, at('15:01')))).toEqual([[], ['past-life']]);
  });

  it('is only what was past its life while that plan was in force', () => {
    const { book, begun } = kitchen();
    const [before, after] = [begun(night('05:00')), begun(night('05:01'))];
    approve(book, { since: at('11:00') }); // six hours after 05:00: at that instant it still keeps
    expect([before, after].map((lot) => against(book, lot, at('12:00')))).toEqual([[], []]);
    const other = kitchen();
    const filling = other.begun(night('04:59'));
    approve(other.book, { since: at('11:00') });
    expect(against(other.book, filling, at('12:00'))).toEqual(['past-life']);
  });

  it('is not told of by a plan that another replaced at the same instant', () => {
    const { book, begun } = kitchen({});
    const filling = begun(night('01:00'));
    approve(book, { madeHere: 'hold', since: at('08:00') });
    approve(book, { since: at('08:00') });
    expect(against(book, filling, at('12:00'))).toEqual([]);
  });

  it('holds what it is used in, as long as it is on hold itself, and no more once that was decided', () => {
    const { book, begun, used } = kitchen();
    const filling = begun(night('01:00'));
    approve(book, { since: at('08:00') });
    const [onHold, decided, later] = [begun(night('09:00')), begun(night('10:00')), begun(night('12:00'))];
    used(filling, onHold, night('09:00'));
    accepted(book, filling, '09:30');
    used(filling, decided, night('10:00'));
    expect([onHold, decided].map((lot) => against(book, lot))).toEqual([['used-past-life'], []]);
    // the plan that is in force when it is used counts as well
    approve(book, { madeHere: 'hold', since: at('11:00') });
    used(filling, later, night('12:00'));
    expect([decided, later].map((lot) => against(book, lot))).toEqual([[], ['used-past-life']]);
  });
});

it('says the same in whatever order plans, lives and uses are recorded', () => {
  const [filling, one] = [uuid(0xe51), uuid(0xe53)];
  const minutes = fc.integer({ min: 121, max: 900 });
  const time = (m: number): string => `${String(Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`;
  const rule = fc.constantFrom('hold' as const, 'warn' as const);
  const plans = fc.array(fc.record({ m: minutes, madeHere: rule, opened: rule }), { minLength: 3, maxLength: 3 });
  const order = fc.shuffledSubarray([0, 1, 2, 3, 4, 5], { minLength: 6 });
  fc.assert(
    fc.property(plans, fc.tuple(minutes, minutes, minutes), order, (rules, [a, b, c], shuffled) => {
      const told = (inOrder: readonly number[]): unknown => {
        const k = kitchen({});
        for (const id of [filling, one]) k.begun(night('01:00'), { id, station: places.mixer });
        const facts = [
          ...rules.map(({ m, ...says }, i) => () => {
            k.book.given('planLife', uuid(0xff0 + i), {
              rule: 'life',
              plan: uuid(0xfe0 + i),
              number: i + 2,
              site: null,
              ...says,
              since: at(time(m)),
            });
          }),
          () => k.used(filling, one, at(time(a))),
          () => k.ended(filling, at(time(b))),
          () => k.opened(at(time(c))),
        ];
        for (const i of inOrder) facts[i]?.();
        return [filling, cream, one].map((lot) => [against(k.book, lot), against(k.book, lot, iso('20:00'))]);
      };
      expect(told(shuffled)).toEqual(told([0, 1, 2, 3, 4, 5]));
    }),
    { numRuns: 60 },
  );
});
