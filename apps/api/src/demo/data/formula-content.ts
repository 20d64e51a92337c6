import type { FormulaContent } from '@bakehouse/records';
import { formulas, type FormulaData, type FormulaKey, type StepType } from './formulas.js';
import { materials, type MaterialKey } from './materials.js';

interface Ids {
  readonly material: Readonly<Record<MaterialKey, string>>;
  readonly formula: Readonly<Record<FormulaKey, string>>;
}

/** A formula's content in the form that is approved. */
export function contentOf(key: FormulaKey, ids: Ids): FormulaContent {
  const of: FormulaData = formulas[key];
  const isFormula = (name: string): name is FormulaKey => Object.hasOwn(formulas, name);
  return {
    lines: of.lines.map(([material, grams, madeBy]) => ({
      material: ids.material[material],
      name: materials[material].name,
      mg: grams * 1000,
      flour: materials[material].flour,
      madeBy: madeBy !== undefined && isFormula(madeBy) ? ids.formula[madeBy] : null,
    })),
    steps: of.steps.map(([type, minutes, maxMinutes]) => ({
      key: type,
      type,
      name: stepNames[type],
      minutes,
      maxMinutes,
      speed: null,
      target: null,
      place: null,
    })),
    products: of.products.map((p) => ({
      product: ids.material[p.key],
      name: materials[p.key].name,
      scalingMg: p.grams * 1000,
      pieces: p.pieces,
      bakedMg: Math.round(p.grams * (1000 - p.lossPercent * 10)),
      lossPpm: p.lossPercent * 10_000,
      lifeDays: materials[p.key].lifeDays ?? 1,
      dateType: p.key === 'slice' || p.key === 'roll' ? 'use-by' : 'best-before',
      ovens: p.oven === null ? [] : [{ oven: p.oven[0], celsius: p.oven[1], finishCelsius: null, minutes: p.oven[2], steamSeconds: 0 }],
      additions: (of.additions?.[p.key] ?? []).map(([m, mgPerPiece]) => ({
        material: ids.material[m],
        name: materials[m].name,
        mgPerPiece,
        after: 'before-oven',
      })),
    })),
    makes: ids.material[of.makes],
    doughCelsius: of.dough ?? null,
    frictionCelsius: of.friction ?? null,
    minutesSlow: of.minutes?.[0] ?? null,
    minutesFast: of.minutes?.[1] ?? null,
    lifeHours: of.lifeHours ?? null,
    rework: of.rework
      ? {
          sources: of.rework.sources.map((material) => ({ material: ids.material[material], name: materials[material].name })),
          maxFlourBp: null,
          maxAgeHours: null,
          maxTimes: of.rework.maxTimes,
        }
      : null,
  };
}

const stepNames: Readonly<Record<StepType, string>> = {
  mix: 'Mix',
  rest: 'Rest',
  divide: 'Divide',
  prove: 'Prove',
  retard: 'Retard',
  wash: 'Wash',
  bake: 'Bake',
  cook: 'Cook',
  cool: 'Cool',
  freeze: 'Freeze',
  fill: 'Fill',
  finish: 'Finish',
};
