import * as z from 'zod';

export const ruleNames = {
  1: 'one point beyond 3 sigma',
  2: '9 points in a row on one side of the centre',
  3: '6 points in a row rising, or falling',
  4: '14 points in a row alternating up and down',
  5: '2 of 3 points in a row beyond 2 sigma on the same side',
  6: '4 of 5 points in a row beyond 1 sigma on the same side',
  7: '15 points in a row within 1 sigma of the centre, on either side',
  8: '8 points in a row outside 1 sigma, on either side',
} as const;

const numbers = [1, 2, 3, 4, 5, 6, 7, 8] as const;
const ruleNumber = z.literal(numbers, { error: 'a rule number from 1 to 8' });
export type RuleNumber = z.infer<typeof ruleNumber>;
export const everyRule: readonly RuleNumber[] = numbers;
/** Nelson calls tests 1 to 4 the ones to apply routinely. */
export const routineRules: readonly RuleNumber[] = [1, 2, 3, 4];

export const ruleList = z
  .array(ruleNumber, { error: 'a list of rule numbers from 1 to 8' })
  .min(1, 'at least one rule number from 1 to 8')
  .max(8, 'at most 8 rule numbers')
  .meta({ description: 'which of the eight tests to apply: numbers from 1 to 8' });

/** Rules as "nelson" for all eight, or each as "1", "rule-1" or "Nelson 1". */
export function rulesNamed(rules: unknown): unknown {
  if (typeof rules === 'string' && /^nelson$/i.test(rules)) return everyRule;
  if (!Array.isArray(rules) || rules.length > everyRule.length) return rules;
  return rules.map((rule: unknown) => {
    const found = typeof rule === 'string' ? /^(?:(?:nelson|rule|test)[\s_-]*){0,2}([1-8])$/i.exec(rule) : null;
    return found === null ? rule : Number(found[1]);
  });
}

export const signal = z.object({
  rule: ruleNumber.meta({ description: 'number of the test' }),
  index: z.int().meta({ description: 'zero-based place of the point that completes the pattern' }),
});
export type Signal = z.infer<typeof signal>;

export const nelsonSource = 'L. S. Nelson, The Shewhart control chart: tests for special causes, Journal of Quality Technology 16(4), 1984';
export const strictness =
  'A point exactly on a line is neither beyond it nor within it, and breaks a run; equal neighbours break a rise, a fall and an alternation.';

/** Bits of the last few points that were beyond a line, newest in bit 0. */
const remember = (history: number, beyond: boolean, mask: number): number => ((history << 1) | (beyond ? 1 : 0)) & mask;
const twoOfThree = (history: number): boolean => (history & 1) === 1 && (history & 6) !== 0;
const bitsOfFive = (h: number): number => (h & 1) + ((h >> 1) & 1) + ((h >> 2) & 1) + ((h >> 3) & 1) + ((h >> 4) & 1);
const fourOfFive = (history: number): boolean => (history & 1) === 1 && bitsOfFive(history) >= 4;

/**
 * Signals of the chosen tests, in the order of the points; each is at the point that completes the pattern, and again while it goes on.
 * One pass. Within rounding of a line counts as on it. Tests 5 and 6 need the completing point itself to be beyond the line. Nelson 1984.
 */
export function nelsonSignals(values: readonly number[], centre: number, sigma: number, rules: readonly RuleNumber[]): Signal[] {
  const found: Signal[] = [];
  const on = new Set<number>(rules);
  const [on1, on2, on3, on4, on5, on6, on7, on8] = [on.has(1), on.has(2), on.has(3), on.has(4), on.has(5), on.has(6), on.has(7), on.has(8)];
  const zones = on5 || on6 || on7 || on8;
  const slack = 8 * Number.EPSILON * (Math.abs(centre) + 3 * sigma);
  const [inside, one, two, three] = [sigma - slack, sigma + slack, 2 * sigma + slack, 3 * sigma + slack];
  let [above, below, rising, falling, alternating, within, outside] = [0, 0, 1, 1, 1, 0, 0];
  let [high2, low2, high1, low1] = [0, 0, 0, 0];
  let previous = Number.NaN;
  let lastStep = 0;
  let index = 0;
  for (const value of values) {
    const d = value - centre;
    const distance = Math.abs(d);
    above = d > slack ? above + 1 : 0;
    below = d < -slack ? below + 1 : 0;
    const step = value > previous ? 1 : value < previous ? -1 : 0;
    rising = step === 1 ? rising + 1 : 1;
    falling = step === -1 ? falling + 1 : 1;
    alternating = step === 0 ? 1 : step === -lastStep ? alternating + 1 : 2;
    if (on1 && distance > three) found.push({ rule: 1, index });
    if (on2 && (above >= 9 || below >= 9)) found.push({ rule: 2, index });
    if (on3 && (rising >= 6 || falling >= 6)) found.push({ rule: 3, index });
    if (on4 && alternating >= 14) found.push({ rule: 4, index });
    if (zones) {
      within = distance < inside ? within + 1 : 0;
      outside = distance > one ? outside + 1 : 0;
      high2 = remember(high2, d > two, 7);
      low2 = remember(low2, d < -two, 7);
      high1 = remember(high1, d > one, 31);
      low1 = remember(low1, d < -one, 31);
    }
    if (on5 && (twoOfThree(high2) || twoOfThree(low2))) found.push({ rule: 5, index });
    if (on6 && (fourOfFive(high1) || fourOfFive(low1))) found.push({ rule: 6, index });
    if (on7 && within >= 15) found.push({ rule: 7, index });
    if (on8 && outside >= 8) found.push({ rule: 8, index });
    previous = value;
    lastStep = step;
    index += 1;
  }
  return found;
}
