import { individualsChart, lethalMinutes, runRules } from '@bakehouse/sums';
import { compare, type Row } from './_measure.js';

const million = 1_000_000;

/** Roughly normal values from a fixed sequence: the sum of twelve even shares, less six. */
function noise(n: number, seed: number): number[] {
  let state = seed;
  const share = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
  return Array.from({ length: n }, () => {
    let sum = -6;
    for (let i = 0; i < 12; i += 1) sum += share();
    return sum;
  });
}

const values = noise(million, 1).map((z) => 400 + 2 * z);
const profile = noise(million, 2).map((z, i) => ({ minutes: i / 60, celsius: 70 + 5 * z }));

/** The integral written out in one loop. */
function bareLethality(): number {
  const rate = Math.LN10 / 7.5;
  let total = 0;
  for (let i = 1; i < profile.length; i += 1) {
    const [before, after] = [profile[i - 1], profile[i]];
    if (before === undefined || after === undefined) break;
    const a = rate * (before.celsius - 70);
    const b = rate * (after.celsius - 70);
    const top = a > b ? a : b;
    const drop = a > b ? b - a : a - b;
    total += (after.minutes - before.minutes) * (drop === 0 ? Math.exp(top) : (Math.exp(top) * Math.expm1(drop)) / drop);
  }
  return total;
}

/** Mean and mean moving range, then tests 1 to 4 and the ranges above their limit, only counted. */
function bareIndividuals(): number {
  let sum = 0;
  let ranges = 0;
  let previous = values[0] ?? 0;
  for (const value of values) {
    sum += value;
    ranges += Math.abs(value - previous);
    previous = value;
  }
  const centre = sum / values.length;
  const meanRange = ranges / (values.length - 1);
  const three = (3 * meanRange) / 1.128;
  const most = 3.267 * meanRange;
  let [count, above, below, rising, falling, alternating, lastStep] = [0, 0, 0, 1, 1, 1, 0];
  previous = values[0] ?? 0;
  for (const value of values) {
    const d = value - centre;
    above = d > 0 ? above + 1 : 0;
    below = d < 0 ? below + 1 : 0;
    const step = value > previous ? 1 : value < previous ? -1 : 0;
    rising = step > 0 ? rising + 1 : 1;
    falling = step < 0 ? falling + 1 : 1;
    alternating = step === 0 ? 1 : step === -lastStep ? alternating + 1 : 2;
    if (d > three || d < -three) count += 1;
    if (above >= 9 || below >= 9) count += 1;
    if (rising >= 6 || falling >= 6) count += 1;
    if (alternating >= 14) count += 1;
    if (Math.abs(value - previous) > most) count += 1;
    previous = value;
    lastStep = step;
  }
  return count;
}

/** The eight tests with centre 400 and sigma 2, only counted. */
function bareRules(): number {
  let [count, above, below, rising, falling, alternating, within, outside, lastStep] = [0, 0, 0, 1, 1, 1, 0, 0, 0];
  let [high2, low2, high1, low1] = [0, 0, 0, 0];
  let previous = Number.NaN;
  for (const value of values) {
    const d = value - 400;
    above = d > 0 ? above + 1 : 0;
    below = d < 0 ? below + 1 : 0;
    const step = value > previous ? 1 : value < previous ? -1 : 0;
    rising = step > 0 ? rising + 1 : 1;
    falling = step < 0 ? falling + 1 : 1;
    alternating = step === 0 ? 1 : step === -lastStep ? alternating + 1 : 2;
    within = d < 2 && d > -2 ? within + 1 : 0;
    outside = d > 2 || d < -2 ? outside + 1 : 0;
    high2 = ((high2 << 1) | (d > 4 ? 1 : 0)) & 7;
    low2 = ((low2 << 1) | (d < -4 ? 1 : 0)) & 7;
    high1 = ((high1 << 1) | (d > 2 ? 1 : 0)) & 31;
    low1 = ((low1 << 1) | (d < -2 ? 1 : 0)) & 31;
    if (d > 6 || d < -6) count += 1;
    if (above >= 9 || below >= 9) count += 1;
    if (rising >= 6 || falling >= 6) count += 1;
    if (alternating >= 14) count += 1;
    if (((high2 & 1) === 1 && (high2 & 6) !== 0) || ((low2 & 1) === 1 && (low2 & 6) !== 0)) count += 1;
    if (fourOfFive(high1) || fourOfFive(low1)) count += 1;
    if (within >= 15) count += 1;
    if (outside >= 8) count += 1;
    previous = value;
    lastStep = step;
  }
  return count;
}
const fourOfFive = (h: number) => (h & 1) === 1 && (h & 1) + ((h >> 1) & 1) + ((h >> 2) & 1) + ((h >> 3) & 1) + ((h >> 4) & 1) >= 4;

/** Sums over a million points against bare loops doing the same arithmetic; the last rows add the reading and checking of the input. */
export function run(): Row[] {
  const ours = runRules.run({ values, centre: 400, sigma: 2 });
  if (!ours.ok || ours.value.signals.length !== bareRules()) throw new Error('the two do different work: the tests disagree');
  const chart = individualsChart.run({ values });
  const counted = chart.ok ? chart.value.signals.length + chart.value.movingRange.signals.length : -1;
  if (counted !== bareIndividuals()) throw new Error('the two do different work: the charts disagree');
  if (Math.abs(lethalMinutes(profile, 70, 7.5) / bareLethality() - 1) > 1e-9)
    throw new Error('the two do different work: the integrals disagree');
  return [
    compare({ what: 'lethality, 1,000,000 points', subject: () => lethalMinutes(profile, 70, 7.5), bare: bareLethality, target: 2 }),
    compare({
      what: 'individuals-chart, 1,000,000 values',
      subject: () => individualsChart.run({ values }),
      bare: bareIndividuals,
      target: 2,
    }),
    compare({
      what: 'run-rules, all eight, 1,000,000 values',
      subject: () => runRules.run({ values, centre: 400, sigma: 2 }),
      bare: bareRules,
      target: 2,
    }),
    compare({ what: 'individuals-chart with input checked', subject: () => individualsChart.calculate({ values }), bare: bareIndividuals }),
    compare({
      what: 'run-rules with input checked',
      subject: () => runRules.calculate({ values, centre: 400, sigma: 2 }),
      bare: bareRules,
    }),
  ];
}
