import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  formulaAt,
  formulasInForce,
  planInForce,
  plansFor,
  plansInTurn,
  retiredSince,
  specificationsInForce,
  wasInForce,
} from './in-force.js';

const day = fc.integer({ min: 10, max: 19 }).map((n) => `2026-11-${n}T00:00:00.000Z`);
const plan = fc.record({ id: fc.uuid(), site: fc.constantFrom(null, 'a', 'b'), since: day, number: fc.integer({ min: 1, max: 5 }) });
const plans = fc.uniqueArray(plan, { maxLength: 8, selector: (p) => `${p.since} ${p.number}` });

describe('the plan in force', () => {
  it('is the one whose turn it is, at every instant and in whatever order they are given', () => {
    fc.assert(
      fc.property(plans, day, fc.constantFrom('a', 'b'), (all, at, site) => {
        const turns = plansInTurn(plansFor(all, site));
        const whose = turns.filter(({ plan: p, until }) => p.since <= at && (until === null || until > at)).at(-1);
        expect(planInForce(all, site, at)).toEqual(whose?.plan);
        expect(planInForce([...all].reverse(), site, at)).toEqual(whose?.plan);
        const until = at.replace('T00', 'T01');
        const during = turns.filter((turn) => wasInForce(turn, { begins: at, ends: until }));
        if (whose) expect(during).toContainEqual(whose);
        expect(during.every(({ plan: p }) => p.since <= at)).toBe(true);
      }),
    );
  });

  it('is one of the site or of all sites', () => {
    fc.assert(fc.property(plans, day, (all, at) => expect(planInForce(all, 'a', at)?.site).not.toBe('b')));
  });
});

describe('the version of a formula in force', () => {
  const version = (number: number, since: string) => ({ formula: 'f', number, since });
  const [one, two] = [version(1, '2026-11-10'), version(2, '2026-11-14')];

  it.each([
    ['before the first', '2026-11-09', [], undefined],
    ['with the first', '2026-11-13', [one], one],
    ['with the second', '2026-11-14', [two], two],
    ['retired', '2026-11-17', [], two],
    ['before it was retired', '2026-11-15', [two], two],
  ])('is %s', (_when, at, inForce, newest) => {
    const ends = [
      { formula: 'f', at: '2026-11-12' },
      { formula: 'g', at: '2026-11-14' },
      { formula: 'f', at: '2026-11-16' },
    ];
    const ended = at < '2026-11-14' ? ends.slice(1) : ends;
    expect(formulasInForce([two, one], ended, at)).toEqual(inForce);
    expect(formulaAt([two, one], 'f', at)).toBe(newest);
  });

  it('is retired since its last end alone, and not by one before it', () => {
    expect([retiredSince('2026-11-14', ['2026-11-12']), retiredSince('2026-11-14', ['2026-11-16', '2026-11-12'])]).toEqual([
      null,
      '2026-11-16',
    ]);
  });
});

describe('the specifications in force', () => {
  it('are the last of each supplier, and none that is still to come', () => {
    const of = (id: string, supplier: string | null, since: string) => ({ id, material: 'm', supplier, since });
    const all = [of('3', 's', '2026-11-14'), of('1', 's', '2026-11-10'), of('2', null, '2026-11-11'), of('4', 's', '2026-11-20')];
    expect([...(specificationsInForce(all, '2026-11-15').get('m')?.values() ?? [])].map((s) => s.id)).toEqual(['3', '2']);
  });
});
