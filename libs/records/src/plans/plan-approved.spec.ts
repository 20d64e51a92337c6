import { derivedId } from '@bakehouse/kernel';
import { describe, expect, it } from '@jest/globals';
import { planApproved } from './plan-approved.js';
import { planContent, type PointContent } from '../rows/plan-content.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const [formula, product, flour, series] = [testId(0xd0), testId(0xc8), testId(0xc1), testId(0x140)];
const example = planContent.parse(planApproved.examples[0].content);
const points = (...changes: Partial<PointContent>[]) => ({
  ...example,
  points: example.points.flatMap((p) => changes.map((c) => ({ ...p, ...c }))),
});
const since = '2026-01-01T00:00:00.000Z';
const spec = (n: number, material: string, type: 'product' | 'ingredient') => ({
  in: 'specification' as const,
  id: testId(n),
  row: {
    material,
    name: 'x',
    type,
    countedIn: 'mass' as const,
    densityMgPerMl: null,
    storage: 'ambient' as const,
    lifeDays: null,
    lifeOpenedHours: null,
    contains: [],
    mayContain: [],
    checked: null,
    flour: false,
    animalOrigin: false,
    supplier: null,
    since,
  },
});
const house = (): House =>
  new House([
    spec(1, product, 'product'),
    spec(2, flour, 'ingredient'),
    {
      in: 'formulaVersion',
      id: testId(0xd9),
      row: {
        formula,
        number: 1,
        name: 'White dough',
        type: 'dough',
        loosened: [],
        note: null,
        since,
        content: {
          lines: [],
          steps: [],
          products: [],
          makes: testId(0xc9),
          doughCelsius: null,
          frictionCelsius: null,
          minutesSlow: null,
          minutesFast: null,
          lifeHours: null,
          rework: null,
        },
      },
    },
  ]);
const content = points({ key: 'core' }, { key: 'core-tin', formulas: [formula], products: [product] });
const payload = { series, number: 1, site: null, content, loosened: [] };

describe('plan-approved', () => {
  it('puts down the version and each of its control points, by ids that follow from the entry', () => {
    const inForce = house().recorded(planApproved, { payload });
    expect(inForce.rows[0]).toEqual({
      in: 'planVersion',
      id: inForce.id,
      row: { ...payload, loosened: [], since: '2026-11-25T04:40:00.000Z' },
    });
    const life = {
      rule: 'life',
      plan: inForce.id,
      number: 1,
      site: null,
      opened: 'warn',
      madeHere: 'hold',
      since: '2026-11-25T04:40:00.000Z',
    };
    expect(inForce.rows[1]).toMatchObject({ in: 'planLife', row: life });
    expect(inForce.rows.slice(2)).toEqual(
      content.points.map((p) => ({
        in: 'controlPoint',
        id: derivedId(inForce.id, p.key),
        row: { plan: inForce.id, key: p.key, content: p },
      })),
    );
  });

  it('the number must be the next one of its series', () => {
    const h = house();
    h.recorded(planApproved, { payload });
    expect(h.record(planApproved, { payload })).toMatchObject({
      problem: 'not-the-next-number',
      field: 'payload.number',
      acceptable: '2',
    });
    expect(h.record(planApproved, { payload: { ...payload, series: testId(0x141) } }).ok).toBe(true);
    expect(h.record(planApproved, { payload: { ...payload, number: 2, site: testId(2) } }).ok).toBe(true);
  });

  it('what was signed is not changed: a correction mends the time only', () => {
    const h = house();
    const inForce = h.recorded(planApproved, { payload });
    h.recorded(planApproved, { payload, at: '2026-11-25T03:00:00Z', replaces: inForce });
    expect(h.row('planVersion', inForce.id)?.since).toBe('2026-11-25T03:00:00.000Z');
    const lower = points(
      { key: 'core', limit: { type: 'range', min: '92', max: null, unit: 'degC' } },
      { key: 'core-tin', formulas: [formula], products: [product] },
    );
    expect(h.record(planApproved, { payload: { ...payload, content: lower }, replaces: inForce })).toMatchObject({
      problem: 'approved-is-fixed',
      field: 'payload',
    });
  });

  const lower = points(
    { key: 'core', limit: { type: 'range', min: '40', max: null, unit: 'degC' } },
    { key: 'core-tin', formulas: [formula], products: [product] },
  );
  const because = {
    point: 'core',
    reason: 'a smaller loaf',
    validatedBy: 'The consultant',
    evidence: 'a challenge study of it',
    validatedOn: '2026-10-01',
  };

  it('a looser limit than the one in force is refused by its name until somebody says why and what that rests on', () => {
    const h = house();
    h.recorded(planApproved, { payload });
    const next = { ...payload, number: 2, content: lower };
    expect(h.record(planApproved, { payload: next })).toMatchObject({
      problem: 'limit-loosened',
      field: 'payload.loosened',
      acceptable: 'why, who validated it, on what and when, for Core of the coldest loaf: 93 °C or more → 40 °C or more',
    });
    const later = { ...next, loosened: [{ ...because, validatedOn: '2027-05-01' }] };
    expect(h.record(planApproved, { payload: later })).toMatchObject({ field: 'payload.loosened.0.validatedOn' });
    const approved = h.recorded(planApproved, { payload: { ...next, loosened: [because, { ...because, point: 'core-tin' }] } });
    const changes = [{ what: 'limit', before: content.points[0]?.limit, after: lower.points[0]?.limit }];
    expect(h.row('planVersion', approved.id)?.loosened).toEqual([{ ...because, name: 'Core of the coldest loaf', changes }]); // and nothing of core-tin
    expect(h.record(planApproved, { payload: { ...payload, number: 3, content: lower } }).ok).toBe(true); // it is no looser any more
  });

  it('a plan of another series takes the place of the one in force, and is compared with it', () => {
    const h = house();
    h.recorded(planApproved, { payload });
    const other = { ...payload, series: testId(0x141), number: 1, content: lower };
    for (const site of [null, testId(2)])
      expect(h.record(planApproved, { payload: { ...other, site } })).toMatchObject({ problem: 'limit-loosened' });
  });

  it('a plan for every site is compared with the one of each site', () => {
    const h = house();
    h.recorded(planApproved, { payload: { ...payload, content: lower } });
    h.recorded(planApproved, { payload: { ...payload, series: testId(0x141), site: testId(2) } });
    expect(h.record(planApproved, { payload: { ...payload, number: 2, content: lower } })).toMatchObject({ problem: 'limit-loosened' });
    expect(h.record(planApproved, { payload: { ...payload, number: 2, content: lower, site: testId(3) } }).ok).toBe(true);
  });

  it.each<[string, object, string, string]>([
    ['a key twice', points({}, {}), 'unacceptable-value', 'points.1.key'],
    [
      'a limit that makes no sense',
      points({ limit: { type: 'range', min: '93', max: '9', unit: 'degC' } }),
      'unacceptable-value',
      'points.0.limit.max',
    ],
    ['a formula nobody knows', points({ formulas: [formula, testId(99)] }), 'unknown-formula', 'points.0.formulas.1'],
    ['a product that is flour', points({ products: [flour] }), 'unknown-material', 'points.0.products.0'],
  ])('refuses %s', (_what, wrong, problem, field) => {
    expect(house().recordRaw(planApproved, { payload: { ...payload, content: wrong } })).toMatchObject({
      problem,
      field: `payload.content.${field}`,
    });
  });

  it('of before it said anything of food past its life is read as one that only warns', () => {
    const { pastLife: _said, points: all, ...before } = content;
    const earlier = all.map(({ validated: _validated, ...point }) => point);
    const read = planApproved.upcast?.[1]?.({ series, number: 1, site: null, content: { ...before, points: earlier } });
    expect(read).toMatchObject({
      success: true,
      data: { series, number: 1, site: null, content: { ...before, points: earlier, pastLife: { opened: 'warn', madeHere: 'warn' } } },
    });
  });

  it('of before a point could say who validated its limit is read as one of which nobody recorded it', () => {
    const earlier = content.points.map(({ validated: _validated, ...point }) => point);
    const read = planApproved.upcast?.[2]?.({ series, number: 1, site: null, content: { ...content, points: earlier } });
    const points = content.points.map((point) => ({ ...point, validated: null }));
    expect(read).toEqual({ success: true, data: { ...payload, content: { ...content, points }, loosened: [] } });
    expect(planApproved.upcastOutcome?.[1]?.({})).toEqual({ success: true, data: { loosened: [] } });
  });

  it('is signed, and not made off line', () => {
    expect(planApproved).toMatchObject({
      type: 'decision',
      offline: false,
      permission: 'manage.plans',
      signed: expect.not.stringContaining('validated'), // that is said where it was recorded, and by whom
    });
  });
});
