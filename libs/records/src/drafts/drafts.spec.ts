import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { blankFormula, blankPlan, draftLines, formulaDraft, planDraft } from './draft-content.js';
import { formulaDraftProblems, planDraftProblems } from './draft-problems.js';
import { WorkingSet } from '../base/working-set.js';
import { formulaApproved } from '../formulas/formula-approved.js';
import { planApproved } from '../plans/plan-approved.js';

const { formula, number: _number, ...baked } = formulaApproved.examples[0];
const { series: _series, number: _first, ...inForce } = planApproved.examples[0];
const at = '2026-11-25T04:40:00.000Z';
const nothing = new WorkingSet(true);
const stocked = (): WorkingSet => {
  const set = new WorkingSet(true);
  const row = {
    countedIn: 'mass',
    densityMgPerMl: null,
    storage: 'ambient',
    lifeDays: null,
    lifeOpenedHours: null,
    contains: [],
    mayContain: [],
    animalOrigin: false,
    supplier: null,
    since: at,
  };
  const typed = [
    ...baked.content.lines.map((l) => [l.material, 'ingredient', l.flour]),
    [baked.content.makes, 'intermediate', false],
    ...baked.content.products.map((p) => [p.product, 'product', false]),
  ] as const;
  for (const [material, type, flour] of typed)
    set.base('specification', { id: String(material), material, name: 'x', type, flour, ...row });
  return set;
};

describe('a draft of a formula', () => {
  it('that could be approved has nothing against it', () => {
    expect(formulaDraftProblems(formula, baked, stocked(), at)).toEqual([]);
  });

  it('from before a formula could say anything of rework says nothing of it', () => {
    const { rework: _rework, ...before } = baked.content;
    expect(formulaDraftProblems(formula, { ...baked, content: before }, stocked(), at)).toEqual([]);
  });

  it('from nothing says field by field what is missing', () => {
    expect(formulaDraftProblems(formula, blankFormula('', 'dough'), nothing, at).map((p) => p.field)).toEqual([
      'name',
      'content.lines',
      'content.makes',
    ]);
    expect(planDraftProblems(blankPlan('Bread', null), nothing, at).map((p) => p.field)).toEqual([
      'content.points',
      'content.pastLife.opened',
      'content.pastLife.madeHere',
    ]);
  });

  it('says all that makes no sense at once, at the field of the draft', () => {
    const [step] = baked.content.steps;
    const broken = { ...baked, content: { ...baked.content, steps: [step, step], doughCelsius: { min: '27', max: '9' } } };
    expect(formulaDraftProblems(formula, broken, nothing, at).map((p) => [p.field, p.problem])).toEqual([
      ['content.makes', 'unknown-material'],
      ['content.lines.0.material', 'unknown-material'],
      ['content.lines.1.material', 'unknown-material'],
      ['content.products.0.product', 'unknown-material'],
      ['content.steps.1.key', 'unacceptable-value'],
      ['content.doughCelsius.max', 'unacceptable-value'],
      ['content.rework.sources.0.material', 'unknown-material'],
    ]);
  });

  it('takes no fields that nobody knows, and names them', () => {
    expect(
      formulaDraftProblems(formula, { ...baked, surprise: 1, content: { ...baked.content, more: 2 } }, stocked(), at).map((p) => [
        p.field,
        p.acceptable,
      ]),
    ).toEqual([
      ['content.more', 'no such field'],
      ['surprise', 'no such field'],
    ]);
  });

  it('is read as far as it goes', () => {
    expect(draftLines({ content: { lines: [{ name: 'rye', mg: 5, flour: true }, 7, { material: formula, mg: '5' }] } })).toEqual([
      { material: '', name: 'rye', mg: 5, flour: true, madeBy: null, known: false },
      { material: '', name: '', mg: 0, flour: false, madeBy: null, known: false },
      { material: formula, name: '', mg: 0, flour: false, madeBy: null, known: true },
    ]);
    for (const raw of [null, 5, 'x', [], {}, { content: { lines: 'x' } }]) expect(draftLines(raw)).toEqual([]);
  });

  const misshapen = ({ problem }: { readonly problem: string }): boolean => problem === 'malformed' || problem === 'required';

  it('has a malformed or missing field exactly when its schema refuses it', () => {
    fc.assert(
      fc.property(fc.anything(), (raw) => {
        expect(formulaDraftProblems(formula, raw, nothing, at).some(misshapen)).toBe(!formulaDraft.safeParse(raw).success);
        expect(planDraftProblems(raw, nothing, at).some(misshapen)).toBe(!planDraft.safeParse(raw).success);
        expect(Array.isArray(draftLines(raw))).toBe(true);
      }),
    );
  });
});

describe('a draft of a plan', () => {
  it('has no problems where it could be approved, and lists every broken rule', () => {
    expect(planDraftProblems(inForce, nothing, at)).toEqual([]);
    const [point] = inForce.content.points;
    const points = [point, { ...point, formulas: [formula], limit: { type: 'range', min: '199', max: null, unit: 'degC' } }];
    expect(planDraftProblems({ ...inForce, content: { ...inForce.content, points } }, nothing, at).map((p) => p.field)).toEqual([
      'content.points.1.key',
      'content.points.1.limit.min',
      'content.points.1.formulas.0',
    ]);
  });
});
