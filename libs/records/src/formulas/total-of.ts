import { apportion, bakersPercents, fraction, nearest, over, plus, sumOf, times, zero, type Fraction } from '@bakehouse/sums';
import type { FormulaContent } from '../rows/formula-content.js';

type Line = FormulaContent['lines'][number];
interface Found {
  readonly material: string;
  readonly name: string;
  readonly flour: boolean;
  readonly weight: Fraction;
  readonly fermented: Fraction;
}

export interface TotalLine {
  readonly material: string;
  readonly name: string;
  readonly mg: number;
  readonly flour: boolean;
  /** Of all flours, those in preferments counted, to 0.001 %; null where no line is flour. */
  readonly percent: number | null;
  /** How much of it is in preferments. */
  readonly prefermentMg: number;
}
export interface TotalFormula {
  readonly lines: readonly TotalLine[];
  readonly totalMg: number;
  readonly flourMg: number;
  /** Of all flour, how much is in preferments, in millionths; null where no line is flour. */
  readonly prefermentedFlourPpm: number | null;
}
/** The version in force of a formula, or undefined where there is none. */
export type FormulaLookup = (formula: string) => { readonly type: string; readonly content: Pick<FormulaContent, 'lines'> } | undefined;

/** What is fermented or soaked beforehand and goes into a dough: it is taken apart. A filling or a pastry stays one line. */
const takenApart: ReadonlySet<string> = new Set(['preferment', 'starter', 'soaker', 'dough']);

/**
 * The total formula: preferments, starters, soakers and old dough taken apart in proportion, however deep, and lines of one material put together.
 * The lines sum exactly to the formula as written. A starter's own part is left out of its parts: refreshed again and again it has the composition
 * of the rest. Common practice of the trade, no source.
 */
export function totalOf(formula: string, content: Pick<FormulaContent, 'lines'>, lookup: FormulaLookup): TotalFormula {
  const known: FormulaLookup = (id) => (id === formula ? { type: 'dough', content } : lookup(id));
  const found = new Map<string, Found>();
  for (const part of content.lines.flatMap((line) => partsOf(line, fraction(line.mg), false, [], known))) {
    const before = found.get(part.material);
    found.set(
      part.material,
      before ? { ...before, weight: plus(before.weight, part.weight), fermented: plus(before.fermented, part.fermented) } : part,
    );
  }
  return shownOf(
    [...found.values()],
    content.lines.reduce((mg, l) => mg + l.mg, 0),
  );
}

function partsOf(line: Line, weight: Fraction, inside: boolean, above: readonly string[], lookup: FormulaLookup): Found[] {
  const made = line.madeBy === null ? undefined : lookup(line.madeBy);
  const path = line.madeBy === null ? above : [...above, line.madeBy];
  const parts = made && takenApart.has(made.type) ? made.content.lines.filter((l) => l.madeBy === null || !path.includes(l.madeBy)) : [];
  const whole = sumOf(parts.map((p) => fraction(p.mg)));
  if (whole.num === 0n) return [{ material: line.material, name: line.name, flour: line.flour, weight, fermented: inside ? weight : zero }];
  return parts.flatMap((part) => partsOf(part, over(times(weight, fraction(part.mg)), whole), true, path, lookup));
}

function shownOf(found: readonly Found[], totalMg: number): TotalFormula {
  const shares = apportion(
    totalMg,
    found.map((f) => f.weight),
  );
  const percents = bakersPercents(found);
  const flours = found.filter((f) => f.flour);
  const flour = sumOf(flours.map((f) => f.weight));
  const lines = found.map(({ material, name, flour: isFlour, fermented }, i): TotalLine => ({
    material,
    name,
    mg: shares[i] ?? 0,
    flour: isFlour,
    percent: percents?.percents[i] ?? null,
    prefermentMg: Math.min(Number(nearest(fermented)), shares[i] ?? 0),
  }));
  return {
    lines,
    totalMg,
    flourMg: lines.reduce((mg, l) => mg + (l.flour ? l.mg : 0), 0),
    prefermentedFlourPpm:
      flour.num === 0n ? null : Number(nearest(over(times(sumOf(flours.map((f) => f.fermented)), fraction(1_000_000)), flour))),
  };
}
