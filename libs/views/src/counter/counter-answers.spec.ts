import { lotAllergens, usedOf, type UsedLot } from '@bakehouse/graph';
import { allergen, type Allergen } from '@bakehouse/kernel';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { counterAnswers, type CounterAnswer } from './counter-answers.js';

const bought = (id: string, contains: Allergen[] = [], mayContain: Allergen[] = []): UsedLot => ({
  id,
  name: id,
  made: false,
  declared: [{ contains, mayContain, checked: { on: '2026-03-03' } }],
});
const made = (id: string): UsedLot => ({ id, name: id, made: true, declared: [] });
const flows = (...pairs: readonly (readonly [string, string])[]) => pairs.map(([source, target]) => ({ source, target }));

// S7 of the trade: at 04:10 a tin oil of another brand, with soya. The first 20 tins had the old oil, the next 20 the new.
const lots = [
  bought('flour', ['wheat'], ['milk']),
  bought('old oil'),
  bought('new oil', ['soybeans']),
  bought('seeds', ['sesame']),
  made('dough'),
  made('tins 1'),
  made('tins 2'),
  made('bloomers'),
];
const tinNight = usedOf(
  lots,
  flows(
    ['flour', 'dough'],
    ['dough', 'tins 1'],
    ['old oil', 'tins 1'],
    ['dough', 'tins 2'],
    ['new oil', 'tins 2'],
    ['dough', 'bloomers'],
    ['seeds', 'bloomers'],
  ),
  [],
);
const recipe = { contains: ['wheat' as const], mayContain: ['milk' as const], notKnown: [], checkedSince: '2026-03-03' };
const nothing = { contains: [], mayContain: [], notKnown: [], checkedSince: null };
const product = (ids: readonly string[], by: typeof recipe | null = null) => ({
  product: 'p',
  name: 'p',
  lots: ids,
  recipe: by ?? nothing,
  ticket: by,
});
const ask = (called: string, ids: string[], more: Parameters<typeof counterAnswers>[2] = []) =>
  counterAnswers([{ product: called, name: called, lots: ids, recipe, ticket: recipe }], tinNight, more)[0];

describe('what the counter says', () => {
  it('one load yes and one no, mixed on the shelf, is yes; the loads apart are told apart', () => {
    expect(ask('tin', ['tins 1'])?.answers).toMatchObject({ wheat: 'contains', milk: 'may-contain', soybeans: 'not', sesame: 'not' });
    expect(ask('tin', ['tins 2'])?.answers.soybeans).toBe('contains');
    expect(ask('tin', ['tins 1', 'tins 2'])?.answers.soybeans).toBe('contains');
  });

  it('says that tickets written from the recipe are out of date, for what was put on and what was opened', () => {
    const opening = {
      how: 'opened' as const,
      lot: 'new oil',
      at: '2026-11-24T04:10:00.000Z',
      fresh: { contains: ['soybeans' as const], mayContain: [] },
    };
    expect(ask('tin', ['tins 1', 'tins 2'], [opening])).toMatchObject({
      notOnTicket: ['soybeans'],
      staleSince: '2026-11-24T04:10:00.000Z',
    });
    expect(ask('tin', ['tins 1'], [opening])).toMatchObject({ notOnTicket: [], staleSince: null });
    expect(ask('bloomer', ['bloomers'])?.notOnTicket).toEqual(['sesame']);
  });

  it('is never "not" where anything in it is not known', () => {
    const used = usedOf(
      [made('loaf'), { id: 'porch', name: 'porch', made: false, declared: [] }, bought('flour', ['wheat'])],
      flows(['porch', 'loaf'], ['flour', 'loaf']),
      [],
    );
    const [loaf] = counterAnswers([product(['loaf'])], used, []);
    expect(loaf).toMatchObject({ notKnown: ['porch'], answers: { wheat: 'contains', sesame: 'unknown' } });
    const [nothing] = counterAnswers([product(['bare'])], usedOf([made('bare')], [], []), []);
    expect(nothing?.answers.wheat).toBe('unknown');
  });

  it('is never "not" where nobody checked a specification, or nothing in it has one', () => {
    const unchecked: UsedLot = { ...bought('new flour', ['wheat']), declared: [{ contains: ['wheat'], mayContain: [], checked: null }] };
    const used = usedOf(
      [made('loaf'), unchecked, bought('water'), made('roll'), made('tub')],
      flows(['new flour', 'loaf'], ['water', 'loaf'], ['water', 'roll'], ['tub', 'tub']),
      [],
    );
    const [loaf, roll, tub] = counterAnswers([product(['loaf']), product(['roll']), product(['tub'])], used, []);
    expect(loaf).toMatchObject({ answers: { wheat: 'contains', sesame: 'unknown' }, notKnown: ['new flour'], checkedSince: null });
    expect(roll).toMatchObject({ answers: { sesame: 'not' }, checkedSince: '2026-03-03' });
    expect(tub).toMatchObject({ answers: { sesame: 'unknown' }, checkedSince: null });
  });

  it('is never "not" where what the same bowl made before is not known', () => {
    const used = usedOf([bought('water'), made('before'), made('loaf')], flows(['water', 'loaf']), [{ before: 'before', after: 'loaf' }]);
    expect(counterAnswers([product(['loaf'])], used, [])[0]).toMatchObject({ answers: { sesame: 'unknown' }, notKnown: ['before'] });
  });

  it('says what is on no ticket although the recipe knows it by now', () => {
    const now = { ...recipe, contains: ['wheat' as const, 'soybeans' as const] };
    const [tin] = counterAnswers([{ product: 'tin', name: 'tin', lots: ['tins 2'], recipe: now, ticket: recipe }], tinNight, []);
    expect(tin?.notOnTicket).toEqual(['soybeans']);
  });

  it('keeps what the recipe has and nobody recorded as possible', () => {
    const used = usedOf([made('loaf'), bought('water')], flows(['water', 'loaf']), []);
    expect(counterAnswers([product(['loaf'], recipe)], used, [])[0]?.answers).toMatchObject({
      wheat: 'may-contain',
      milk: 'may-contain',
    });
  });

  it('takes what the same bowl made before as possible until it is cleaned, one step back', () => {
    const used = usedOf(
      [...lots, bought('almonds', ['almond']), made('frangipane')],
      [...flows(['almonds', 'frangipane'], ['flour', 'dough'], ['dough', 'tins 1'])],
      [{ before: 'frangipane', after: 'dough' }],
    );
    expect(counterAnswers([product(['tins 1'], recipe)], used, [])[0]).toMatchObject({
      answers: { almond: 'may-contain', wheat: 'contains' },
      fromBowl: ['almond'],
      notOnTicket: [],
    });
  });

  it('goes through a starter that is refreshed from itself and comes to an end', () => {
    const used = usedOf(
      [bought('rye', ['rye']), made('tub'), made('dough')],
      flows(['rye', 'tub'], ['tub', 'tub'], ['tub', 'dough'], ['dough', 'tub']),
      [],
    );
    expect([...lotAllergens(used, ['dough']).contains]).toEqual(['rye']);
  });

  const rank: Record<CounterAnswer, number> = { not: 0, unknown: 1, 'may-contain': 2, contains: 3 };
  const edges = fc.array(fc.tuple(fc.nat(9), fc.nat(9)), { maxLength: 25 });
  const says = fc.array(fc.tuple(fc.subarray([...allergen.options]), fc.subarray([...allergen.options])), { minLength: 10, maxLength: 10 });

  it('never says less when one more thing went in, or one more lot is on the shelf', () => {
    fc.assert(
      fc.property(edges, says, fc.nat(9), fc.nat(9), (pairs, declared, extra, shelf) => {
        const all = declared.map(([c, m], i) => bought(`n${i}`, c, m));
        const links = pairs.map(([a, b]) => ({ source: `n${a}`, target: `n${b}` }));
        const answer = (more: typeof links, ids: string[]) =>
          counterAnswers([product(ids)], usedOf(all, [...links, ...more], []), [])[0]?.answers;
        const [less, wider, fuller] = [
          answer([], ['n0']),
          answer([{ source: `n${extra}`, target: 'n0' }], ['n0']),
          answer([], ['n0', `n${shelf}`]),
        ];
        for (const a of allergen.options) {
          expect(rank[wider?.[a] ?? 'not']).toBeGreaterThanOrEqual(rank[less?.[a] ?? 'contains']);
          expect(rank[fuller?.[a] ?? 'not']).toBeGreaterThanOrEqual(rank[less?.[a] ?? 'contains']);
        }
      }),
    );
  });
});
