/** One row of the published factors for charts of averages, ranges and standard deviations of subgroups of n. */
export interface ChartConstants {
  readonly n: number;
  readonly d2: number;
  readonly d3: number;
  readonly c4: number;
  readonly A2: number;
  readonly A3: number;
  readonly B3: number;
  readonly B4: number;
  readonly D3: number;
  readonly D4: number;
}

// Printed factors: n, d2, d3, A2, D3, D4 (NIST/SEMATECH e-Handbook 6.3.2.1 to n = 10; ASTM MNL 7 and the AIAG manual to n = 25).
// Prints differ by one in the last place of D4 at n = 3 (2.574, 2.575) and n = 5 (2.114, 2.115): the e-Handbook's are kept.
const printed: readonly (readonly [number, number, number, number, number, number])[] = [
  [2, 1.128, 0.853, 1.88, 0, 3.267],
  [3, 1.693, 0.888, 1.023, 0, 2.575],
  [4, 2.059, 0.88, 0.729, 0, 2.282],
  [5, 2.326, 0.864, 0.577, 0, 2.115],
  [6, 2.534, 0.848, 0.483, 0, 2.004],
  [7, 2.704, 0.833, 0.419, 0.076, 1.924],
  [8, 2.847, 0.82, 0.373, 0.136, 1.864],
  [9, 2.97, 0.808, 0.337, 0.184, 1.816],
  [10, 3.078, 0.797, 0.308, 0.223, 1.777],
  [11, 3.173, 0.787, 0.285, 0.256, 1.744],
  [12, 3.258, 0.778, 0.266, 0.283, 1.717],
  [13, 3.336, 0.77, 0.249, 0.307, 1.693],
  [14, 3.407, 0.763, 0.235, 0.328, 1.672],
  [15, 3.472, 0.756, 0.223, 0.347, 1.653],
  [16, 3.532, 0.75, 0.212, 0.363, 1.637],
  [17, 3.588, 0.744, 0.203, 0.378, 1.622],
  [18, 3.64, 0.739, 0.194, 0.391, 1.608],
  [19, 3.689, 0.734, 0.187, 0.403, 1.597],
  [20, 3.735, 0.729, 0.18, 0.415, 1.585],
  [21, 3.778, 0.724, 0.173, 0.425, 1.575],
  [22, 3.819, 0.72, 0.167, 0.434, 1.566],
  [23, 3.858, 0.716, 0.162, 0.443, 1.557],
  [24, 3.895, 0.712, 0.157, 0.451, 1.548],
  [25, 3.931, 0.708, 0.153, 0.459, 1.541],
];

/** c4(n) = √(2/(n−1))·Γ(n/2)/Γ((n−1)/2), exact by the recurrence of the gamma ratio, for n ≥ 2. NIST/SEMATECH 6.3.2. */
export function c4Of(n: number): number {
  let ratio = 1 / Math.sqrt(Math.PI); // Γ(1)/Γ(1/2)
  for (let k = 2; k < n; k += 1) ratio = (k - 1) / 2 / ratio;
  return Math.sqrt(2 / (n - 1)) * ratio;
}

const rows = new Map(
  printed.map(([n, d2, d3, A2, D3, D4]): [number, ChartConstants] => {
    const c4 = c4Of(n);
    const half = (3 * Math.sqrt(1 - c4 * c4)) / c4;
    return [n, { n, d2, d3, c4, A2, A3: 3 / (c4 * Math.sqrt(n)), B3: Math.max(0, 1 - half), B4: 1 + half, D3, D4 }];
  }),
);

/** Factors for subgroups of n (2 to 25); range factors as printed to three decimals, c4, A3, B3 and B4 from the formula. */
export const constantsFor = (n: number): ChartConstants | undefined => rows.get(n);

/** Mean moving range to sigma and to the range chart's upper limit: the printed factors for ranges of two. */
export const movingRangeFactors = { d2: 1.128, D4: 3.267 } as const;
