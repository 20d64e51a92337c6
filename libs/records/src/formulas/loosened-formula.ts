import type { FormulaContent, ReworkRule } from '../rows/formula-content.js';

/**
 * What a version of a formula lets through that the one before it does not, each in a few words: a longer life or none, a best-before where there was a use-by
 * date, more, older or other rework. A limit that the one before did not have is none that is loosened.
 */
export function loosenedFormula(before: FormulaContent, after: FormulaContent): string[] {
  const products = before.products.flatMap((was) => {
    const now = after.products.find((p) => p.product === was.product);
    if (!now) return [];
    return [
      ...(was.dateType === 'use-by' && now.dateType === 'best-before' ? [`${was.name}: use-by date → best-before date`] : []),
      ...(now.lifeDays > was.lifeDays ? [`${was.name}: keeps ${was.lifeDays} days → ${now.lifeDays} days`] : []),
    ];
  });
  const life = more(before.lifeHours, after.lifeHours) ? [`keeps ${before.lifeHours} hours → ${orNone(after.lifeHours, 'hours')}`] : [];
  return [...products, ...life, ...loosenedRework(before.rework, after.rework)];
}

function loosenedRework(before: ReworkRule | null, after: ReworkRule | null): string[] {
  if (before === null) return [];
  if (after === null) return ['rework: a rule → no rule'];
  const known = new Set(before.sources.map((s) => s.material));
  const added = after.sources.filter((s) => !known.has(s.material)).map((s) => `rework: ${s.name} may go back in`);
  return [
    ...added,
    ...(more(before.maxFlourBp, after.maxFlourBp)
      ? [
          `rework: at most ${percent(before.maxFlourBp)} of the flour → ${after.maxFlourBp === null ? 'no limit' : percent(after.maxFlourBp)}`,
        ]
      : []),
    ...(more(before.maxAgeHours, after.maxAgeHours)
      ? [`rework: at most ${before.maxAgeHours} hours old → ${orNone(after.maxAgeHours, 'hours')}`]
      : []),
    ...(more(before.maxTimes, after.maxTimes) ? [`rework: at most ${before.maxTimes} times → ${orNone(after.maxTimes, 'times')}`] : []),
  ];
}

/** Whether a limit, null for none, lets through more than another. */
const more = (before: number | null, after: number | null): boolean => before !== null && (after === null || after > before);
const orNone = (limit: number | null, unit: string): string => (limit === null ? 'no limit' : `${limit} ${unit}`);
const percent = (basisPoints: number | null): string => `${(basisPoints ?? 0) / 100} %`;
