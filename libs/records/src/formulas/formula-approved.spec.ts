import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { formulaApproved } from './formula-approved.js';
import type { Rows } from '../base/state.js';
import type { FormulaContent } from '../rows/formula-content.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const m = {
  flour: testId(0xc1),
  water: testId(0xc2),
  leaven: testId(0xc3),
  seeds: testId(0xc4),
  tin: testId(0xc8),
  dough: testId(0xc9),
  box: testId(0xca),
};
const [white, levain] = [testId(0xd0), testId(0xd1)];
const since = '2026-01-01T00:00:00.000Z';
type Type = Rows['specification']['type'];
const spec = (n: number, material: string, type: Type, flour = false) => ({
  in: 'specification' as const,
  id: testId(n),
  row: {
    material,
    name: `material ${n}`,
    type,
    countedIn: 'mass' as const,
    densityMgPerMl: null,
    storage: 'ambient' as const,
    lifeDays: null,
    lifeOpenedHours: null,
    contains: [],
    mayContain: [],
    checked: null,
    flour,
    animalOrigin: false,
    supplier: null,
    since,
  },
});
const line = (material: string, mg: number, flour = false, madeBy: string | null = null) => ({ material, name: 'line', mg, flour, madeBy });
const step = { key: 'mix', type: 'mix' as const, name: 'Mix', minutes: 10, maxMinutes: null, speed: null, target: null, place: null };
const tin = {
  product: m.tin,
  name: 'Tin',
  scalingMg: 910_000,
  pieces: null,
  bakedMg: 800_000,
  lossPpm: 115_000,
  lifeDays: 3,
  dateType: 'best-before' as const,
  ovens: [],
  additions: [{ material: m.seeds, name: 'Seeds', mgPerPiece: 12_000, after: 'before-oven' as const }],
};
const content: FormulaContent = {
  lines: [line(m.flour, 25_000, true), line(m.water, 15_000)],
  steps: [step],
  products: [tin],
  makes: m.dough,
  doughCelsius: { min: '24.5', max: '27.5' },
  frictionCelsius: null,
  minutesSlow: null,
  minutesFast: null,
  lifeHours: null,
  rework: null,
};
const reworkOf = (...from: readonly string[]) => ({
  sources: from.map((material) => ({ material, name: 'x' })),
  maxFlourBp: null,
  maxAgeHours: null,
  maxTimes: null,
});
const leavenContent: FormulaContent = {
  ...content,
  lines: [line(m.flour, 1, true), line(m.leaven, 1, false, levain)],
  products: [],
  makes: m.leaven,
};
const house = (): House =>
  new House([
    spec(1, m.flour, 'ingredient', true),
    spec(2, m.water, 'ingredient'),
    spec(3, m.leaven, 'intermediate'),
    spec(4, m.seeds, 'ingredient'),
    spec(5, m.tin, 'product'),
    spec(6, m.dough, 'intermediate'),
    spec(7, m.box, 'packaging'),
    {
      in: 'formulaVersion',
      id: testId(0xd9),
      row: { formula: levain, number: 1, name: 'Leaven', type: 'starter', content: leavenContent, loosened: [], note: null, since },
    },
  ]);
const payload: PayloadFor<'formula-approved'> = { formula: white, number: 1, name: 'White dough', type: 'dough', content };

describe('formula-approved', () => {
  it('puts a whole version down and says how much flour it has', () => {
    const baked = house().recorded(formulaApproved, { payload });
    expect(baked.outcome).toEqual({ totalMg: 40_000, flourMg: 25_000, loosened: [] });
    expect(baked.rows).toEqual([
      { in: 'formulaVersion', id: baked.id, row: { ...payload, loosened: [], note: null, since: '2026-11-25T04:40:00.000Z' } },
    ]);
  });

  it('the number must be the next one: of two who approve at once the second is told', () => {
    const h = house();
    expect(h.record(formulaApproved, { payload: { ...payload, number: 2 } })).toMatchObject({
      problem: 'not-the-next-number',
      field: 'payload.number',
      acceptable: '1',
    });
    h.recorded(formulaApproved, { payload });
    expect(h.record(formulaApproved, { payload })).toMatchObject({ problem: 'not-the-next-number', acceptable: '2' });
    expect(h.record(formulaApproved, { payload: { ...payload, number: 2 } }).ok).toBe(true);
  });

  it('a correction mends the name or the time and nothing else', () => {
    const h = house();
    const baked = h.recorded(formulaApproved, { payload });
    h.recorded(formulaApproved, { payload: { ...payload, name: 'White' }, at: '2026-11-25T03:00:00Z', replaces: baked });
    expect(h.row('formulaVersion', baked.id)).toMatchObject({ name: 'White', since: '2026-11-25T03:00:00.000Z' });
    const more = { ...content, lines: [line(m.flour, 25_001, true), line(m.water, 15_000)] };
    expect(h.record(formulaApproved, { payload: { ...payload, content: more }, replaces: baked })).toMatchObject({
      problem: 'approved-is-fixed',
    });
    expect(h.record(formulaApproved, { payload: { ...payload, number: 2 }, replaces: baked })).toMatchObject({
      problem: 'approved-is-fixed',
    });
  });

  it('takes what another formula makes, and a starter refreshed from itself', () => {
    const h = house();
    const withLeaven = { ...content, lines: [line(m.water, 1), line(m.leaven, 1, false, levain)] };
    expect(h.record(formulaApproved, { payload: { ...payload, content: withLeaven } }).ok).toBe(true);
    const own = { ...leavenContent, lines: [line(m.flour, 1, true), line(m.leaven, 1, false, testId(0xd5))] };
    expect(
      h.record(formulaApproved, { payload: { formula: testId(0xd5), number: 1, name: 'Rye leaven', type: 'starter', content: own } }).ok,
    ).toBe(true);
  });

  it('a filling needs no flour; a version makes what the versions before it made', () => {
    const h = house();
    const sweet = { ...content, lines: [line(m.water, 1)], products: [] };
    expect(h.record(formulaApproved, { payload: { ...payload, type: 'filling', content: sweet } }).ok).toBe(true);
    expect(
      h.record(formulaApproved, { payload: { ...payload, number: 2, type: 'filling', content: { ...sweet, makes: m.leaven } } }),
    ).toMatchObject({ problem: 'unacceptable-value', field: 'payload.content.makes' });
  });

  it.each<[string, Partial<FormulaContent>, string, string]>([
    ['no flour in a dough', { lines: [line(m.water, 1)] }, 'unacceptable-value', 'lines'],
    ['a line of nothing known', { lines: [line(testId(99), 1)] }, 'unknown-material', 'lines.0.material'],
    ['a line of packaging', { lines: [line(m.flour, 1, true), line(m.box, 1)] }, 'unacceptable-value', 'lines.1.material'],
    ['flour not marked as flour', { lines: [line(m.flour, 1)] }, 'unacceptable-value', 'lines.0.flour'],
    ['water marked as flour', { lines: [line(m.water, 1, true)] }, 'unacceptable-value', 'lines.0.flour'],
    [
      'a formula that does not make it',
      { lines: [line(m.flour, 1, true), line(m.water, 1, false, levain)] },
      'unknown-formula',
      'lines.1.madeBy',
    ],
    [
      'itself, for what it does not make',
      { lines: [line(m.flour, 1, true), line(m.leaven, 1, false, white)] },
      'unknown-formula',
      'lines.1.madeBy',
    ],
    ['a formula nobody knows', { lines: [line(m.leaven, 1, false, testId(99))] }, 'unknown-formula', 'lines.0.madeBy'],
    ['making a product', { makes: m.tin }, 'unknown-material', 'makes'],
    ['a product that is none', { products: [{ ...tin, product: m.flour }] }, 'unknown-material', 'products.0.product'],
    ['a product twice', { products: [tin, tin] }, 'unacceptable-value', 'products.1.product'],
    [
      'seeds nobody knows',
      { products: [{ ...tin, additions: [{ material: testId(99), name: 'x', mgPerPiece: null, after: 'after-oven' }] }] },
      'unknown-material',
      'products.0.additions.0.material',
    ],
    ['a step’s key twice', { steps: [step, step] }, 'unacceptable-value', 'steps.1.key'],
    ['a shorter longest time', { steps: [{ ...step, maxMinutes: 9 }] }, 'unacceptable-value', 'steps.0.maxMinutes'],
    ['rework of nothing known', { rework: reworkOf(testId(99)) }, 'unknown-material', 'rework.sources.0.material'],
    ['rework of what is bought', { rework: reworkOf(m.flour) }, 'unacceptable-value', 'rework.sources.0.material'],
    ['rework named twice', { rework: reworkOf(m.tin, m.tin) }, 'unacceptable-value', 'rework.sources.1.material'],
    [
      'rework as a share of flour that is not there',
      { lines: [line(m.leaven, 1, false, levain)], rework: { ...reworkOf(m.tin), maxFlourBp: 1 } },
      'unacceptable-value',
      'rework.maxFlourBp',
    ],
    ['a range the wrong way round', { doughCelsius: { min: '27.5', max: '9.5' } }, 'unacceptable-value', 'doughCelsius.max'],
  ])('refuses %s', (_what, change, problem, field) => {
    expect(house().recordRaw(formulaApproved, { payload: { ...payload, content: { ...content, ...change } } })).toMatchObject({
      problem,
      field: `payload.content.${field}`,
    });
  });

  it('asks why it lets through what the version before does not, and keeps both', () => {
    const h = house();
    const strict = { ...content, lifeHours: 24, rework: { sources: [], maxFlourBp: 500, maxAgeHours: 12, maxTimes: 1 } };
    h.recorded(formulaApproved, { payload: { ...payload, content: strict } });
    const next = { ...payload, number: 2, content: { ...strict, lifeHours: 48, rework: { ...strict.rework, maxFlourBp: null } } };
    const said = ['keeps 24 hours → 48 hours', 'rework: at most 5 % of the flour → no limit'];
    expect(h.record(formulaApproved, { payload: next })).toMatchObject({
      problem: 'limit-loosened',
      field: 'words.note',
      acceptable: `why, and who looked at it: ${said.join('; ')}`,
    });
    const approved = h.recorded(formulaApproved, { payload: next, words: { note: 'kept cold now' } });
    expect(approved.outcome).toMatchObject({ loosened: said });
    expect(approved.rows).toMatchObject([{ row: { loosened: said, note: 'kept cold now' } }]);
    const corrected = { payload: { ...next, name: 'White dough, cold' }, replaces: approved };
    expect(h.record(formulaApproved, corrected)).toMatchObject({ problem: 'limit-loosened' });
  });

  it('asks nothing of a version that is as strict, or says what was not said before', () => {
    const h = house();
    h.recorded(formulaApproved, { payload });
    const rework = { sources: [], maxFlourBp: 500, maxAgeHours: 12, maxTimes: 1 };
    expect(h.record(formulaApproved, { payload: { ...payload, number: 2, content: { ...content, lifeHours: 24, rework } } }).ok).toBe(true);
  });
});
