import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { keptPeriods, toKeep } from './keep.js';

const day = 86_400_000;
const instants = fc.array(
  fc.integer({ min: Date.UTC(2024, 0, 1), max: Date.UTC(2028, 0, 1) }).map((ms) => new Date(ms)),
  { maxLength: 200 },
);
const times = (all: readonly Date[]): readonly number[] => all.map((at) => at.getTime());

describe('which backups are kept', () => {
  it('always the newest, never more than the periods are, and the same when asked again', () => {
    fc.assert(
      fc.property(instants, (all) => {
        const kept = toKeep(all);
        if (all.length > 0) expect(kept[0]?.getTime()).toBe(Math.max(...times(all)));
        expect(kept.length).toBeLessThanOrEqual(keptPeriods.days + keptPeriods.weeks + keptPeriods.months);
        expect(times(toKeep(kept))).toEqual(times(kept));
      }),
    );
  });

  it('the newest of every day of the last week that has one, of every week, of every month', () => {
    fc.assert(
      fc.property(instants, (all) => {
        const kept = new Set(times(toKeep(all)));
        // By the calendar of Node's own formatter, not by the arithmetic of the rule.
        const newestOf = (period: (at: Date) => string): readonly number[] => {
          const newest = new Map<string, number>();
          for (const at of all) newest.set(period(at), Math.max(newest.get(period(at)) ?? 0, at.getTime()));
          return [...newest.values()].sort((a, b) => b - a);
        };
        for (const ms of newestOf((at) => at.toISOString().slice(0, 10)).slice(0, 7)) expect(kept).toContain(ms);
        for (const ms of newestOf((at) => at.toISOString().slice(0, 7)).slice(0, 12)) expect(kept).toContain(ms);
        for (const ms of newestOf(mondayBefore).slice(0, 5)) expect(kept).toContain(ms);
      }),
    );
  });

  it('after two years of a backup a night: seven days, then weeks, then months, the oldest about a year', () => {
    let there: readonly Date[] = [];
    for (let night = 0; night < 730; night += 1) there = toKeep([...there, new Date(Date.UTC(2026, 0, 1, 3) + night * day)]);
    expect(there.map((at) => at.toISOString().slice(0, 10))).toEqual([
      '2027-12-31',
      '2027-12-30',
      '2027-12-29',
      '2027-12-28',
      '2027-12-27',
      '2027-12-26',
      '2027-12-25',
      '2027-12-19',
      '2027-12-12',
      '2027-12-05',
      '2027-11-30',
      '2027-10-31',
      '2027-09-30',
      '2027-08-31',
      '2027-07-31',
      '2027-06-30',
      '2027-05-31',
      '2027-04-30',
      '2027-03-31',
      '2027-02-28',
      '2027-01-31',
    ]);
  });
});

const mondayBefore = (at: Date): string => {
  const midnight = new Date(Date.UTC(at.getUTCFullYear(), at.getUTCMonth(), at.getUTCDate()));
  return new Date(midnight.getTime() - ((midnight.getUTCDay() + 6) % 7) * day).toISOString();
};
