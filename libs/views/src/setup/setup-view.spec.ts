import { describe, expect, it } from '@jest/globals';
import { permissionsOf, role } from '@bakehouse/kernel';
import fc from 'fast-check';
import type { SetupFacts } from './facts.js';
import { mayDo, setupOf } from './setup-view.js';

const at = '2026-11-25T04:00:00.000Z';
const ids = ['0190a6d0-7b3c-7000-8000-000000000001', '0190a6d0-7b3c-7000-8000-000000000002'] as const;
const [site, other] = ids;
const nothing: SetupFacts = {
  site: { id: site, name: 'Mill Lane', zone: 'Europe/London', dayStarts: '00:00' },
  details: { address: null, authority: null },
  people: [],
  tablets: [],
  places: [],
  instruments: [],
  suppliers: [],
  materials: [],
  formulas: [],
  used: new Set(),
  drafts: { formula: [], plan: [] },
  plan: null,
  happened: { delivery: false, opened: false, dough: false, load: false, release: false },
};
const material = (name: string, checkedSince: string | null): SetupFacts['materials'][number] => ({
  material: name === 'Flour' ? ids[0] : ids[1],
  name,
  type: 'ingredient',
  by: 'specification',
  allergens: { contains: [], mayContain: [], notKnown: checkedSince === null ? [name] : [], checkedSince },
  specifications: [
    {
      id: ids[0],
      name,
      countedIn: 'mass',
      densityMgPerMl: null,
      storage: 'ambient',
      lifeDays: null,
      lifeOpenedHours: null,
      contains: [],
      mayContain: [],
      checked: null,
      checkedBy: null,
      flour: name === 'Flour',
      animalOrigin: false,
      supplier: null,
      supplierName: null,
      since: at,
      inForce: true,
    },
  ],
});
const formula = (retired: string | null, products = 1): SetupFacts['formulas'][number] => ({
  formula: ids[0],
  version: ids[1],
  number: 1,
  name: 'White',
  type: 'dough',
  since: at,
  signed: null,
  makes: ids[1],
  totalMg: 1,
  flourMg: 1,
  products: Array.from({ length: products }, () => ({ product: ids[1], name: 'Loaf', scalingMg: 1 })),
  retired,
});

const person = fc.record({
  id: fc.constantFrom(...ids),
  name: fc.constantFrom('Ada', 'Bea', null),
  leftAt: fc.constantFrom(null, at),
  hasPin: fc.boolean(),
  roles: fc.array(
    fc.record({
      given: fc.constant(ids[0]),
      role: fc.constantFrom(...role.options),
      site: fc.constantFrom(null, site, other),
      until: fc.constant(null),
    }),
    {
      maxLength: 3,
    },
  ),
});
const facts: fc.Arbitrary<SetupFacts> = fc.record({
  site: fc.constant(nothing.site),
  details: fc.record({
    address: fc.constantFrom(null, '3 Mill Lane'),
    authority: fc.constantFrom(
      null,
      { name: 'Food office', phone: null, outOfHours: null },
      { name: 'Food office', phone: '01632 960110', outOfHours: null },
    ),
  }),
  people: fc.array(person, { maxLength: 4 }),
  tablets: fc.subarray(['Table', 'Oven']),
  places: fc.array(
    fc.record({
      name: fc.constant('Somewhere'),
      type: fc.constantFrom('mixer', 'oven', 'fridge', 'store', 'station', 'deck'),
      outOfUse: fc.constantFrom(null, at),
    }),
  ),
  instruments: fc.array(
    fc.record({
      id: fc.constant(ids[0]),
      name: fc.constant('P1'),
      unit: fc.constantFrom('degC', 'g'),
      outOfUse: fc.constantFrom(null, at),
      lastCheck: fc.constantFrom(null, { at, way: 'ice' as const, passed: true }),
    }),
  ),
  suppliers: fc.subarray(['Mill']),
  materials: fc.subarray([material('Flour', null), material('Salt', '2026-01-01'), material('Butter', null)]),
  formulas: fc.subarray([formula(null), formula(at), formula(null, 0)]),
  used: fc.subarray([...ids]).map((list) => new Set(list)),
  drafts: fc.record({ formula: fc.subarray([{ id: ids[0], name: 'White' }]), plan: fc.subarray([{ id: ids[1], name: '' }]) }),
  plan: fc.constantFrom(null, 'Bread'),
  happened: fc.record({ delivery: fc.boolean(), opened: fc.boolean(), dough: fc.boolean(), load: fc.boolean(), release: fc.boolean() }),
});

describe('what is missing until the first released batch', () => {
  it('is everything, in order, where there is nothing', () => {
    const found = setupOf(nothing);
    expect(found.steps.map((s) => [s.step, s.done])).toEqual(
      [
        'people',
        'tablet',
        'site',
        'places',
        'instruments',
        'suppliers',
        'materials',
        'formula',
        'plan',
        'delivery',
        'opened',
        'dough',
        'load',
        'release',
      ].map((s) => [s, false]),
    );
    expect(found).toMatchObject({ done: false, next: 'people', caution: expect.stringContaining('local food-safety authority') });
  });

  it('a step is done just where nothing is missing of it; the next is the first that is not', () => {
    fc.assert(
      fc.property(facts, (given) => {
        const { steps, next, done } = setupOf(given);
        for (const s of steps) expect(s.done).toBe(s.missing.length + s.more === 0);
        expect(next).toBe(steps.find((s) => !s.done)?.step ?? null);
        expect(done).toBe(next === null);
      }),
    );
  });

  it('names for each step just those who may do it there now', () => {
    fc.assert(
      fc.property(facts, (given) => {
        for (const { permission, people, roles } of setupOf(given).steps) {
          expect(roles.every((r) => permissionsOf[r].includes(permission))).toBe(true);
          const named = given.people.filter((p) => mayDo(p, site, permission));
          expect(people.map((p) => p.person)).toEqual(named.map((p) => p.id));
          for (const p of named) expect(p.leftAt === null && p.roles.some((r) => r.site !== other && roles.includes(r.role))).toBe(true);
        }
      }),
    );
  });

  it('more of a house never makes a done step of its people, tablets, places or suppliers a missing one', () => {
    fc.assert(
      fc.property(facts, facts, (one, two) => {
        const both = {
          ...one,
          tablets: [...one.tablets, ...two.tablets],
          places: [...one.places, ...two.places],
          suppliers: [...one.suppliers, ...two.suppliers],
        };
        const [before, after] = [setupOf(one), setupOf(both)].map((s) => new Map(s.steps.map((x) => [x.step, x.done])));
        for (const step of ['tablet', 'places', 'suppliers'] as const)
          expect(before?.get(step) === true && after?.get(step) === false).toBe(false);
      }),
    );
  });

  it('a draft is named as one that nobody has approved, and never makes its step done', () => {
    const drafts = { formula: [{ id: ids[0], name: 'White' }], plan: [{ id: ids[1], name: 'Bread' }] };
    const { steps } = setupOf({ ...nothing, drafts });
    for (const step of steps.filter((s) => s.step === 'formula' || s.step === 'plan')) {
      expect(step.done).toBe(false);
      expect(step.missing.map((m) => m.says).join()).toMatch(/is a draft that nobody has approved/);
    }
  });

  it('a material counts as known by somebody’s check alone, and once a formula is in force by those that it uses', () => {
    const materials = [material('Flour', '2026-01-01'), material('Butter', null)];
    const of = (more: Partial<SetupFacts>) => setupOf({ ...nothing, materials, ...more }).steps.find((s) => s.step === 'materials');
    expect(of({})?.missing).toEqual([{ says: 'What Butter contains: nobody has checked it', about: { type: 'material', id: ids[1] } }]);
    expect(of({ formulas: [formula(null)], used: new Set([ids[0]]) })?.done).toBe(true);
    expect(of({ formulas: [formula(null)], used: new Set(ids) })?.done).toBe(false);
    expect(of({ formulas: [formula(at)], used: new Set([ids[0]]) })?.done).toBe(false); // retired: nothing is in force
  });
});
