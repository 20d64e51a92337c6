export interface Stage {
  /** Packs weighed up to and including this stage. */
  readonly n: number;
  readonly accept: number;
  readonly reject: number;
}

export type PlanKind = 'single' | 'double' | 'destructive' | 'whole-batch';

export interface Plan {
  readonly kind: PlanKind;
  readonly stages: readonly [Stage, ...Stage[]];
  /** Packs in the check of the mean. */
  readonly meanSample: number;
  readonly paragraph: string;
}

interface Row {
  readonly upTo: number;
  readonly single: Stage;
  readonly double: readonly [Stage, Stage];
  readonly meanSample: number;
}

// SI 2006/659 Sch. 2: paragraph 3 (single), the double plan of paragraph 3 as in Directive 76/211/EEC Annex II 2.2.1, and 4.5 (mean).
const rows: readonly Row[] = [
  {
    upTo: 500,
    single: { n: 50, accept: 3, reject: 4 },
    double: [
      { n: 30, accept: 1, reject: 3 },
      { n: 60, accept: 4, reject: 5 },
    ],
    meanSample: 30,
  },
  {
    upTo: 3200,
    single: { n: 80, accept: 5, reject: 6 },
    double: [
      { n: 50, accept: 2, reject: 5 },
      { n: 100, accept: 6, reject: 7 },
    ],
    meanSample: 50,
  },
  {
    upTo: Number.POSITIVE_INFINITY,
    single: { n: 125, accept: 7, reject: 8 },
    double: [
      { n: 80, accept: 3, reject: 7 },
      { n: 160, accept: 8, reject: 9 },
    ],
    meanSample: 50,
  },
];

/**
 * The sampling plan for a batch: single or double without opening packs, 20 packs when they are opened, every pack below 100.
 * Undefined for a destructive test of fewer than 100, which the schedule rules out. SI 2006/659 Sch. 2.
 */
export function planFor(lotSize: number, destructive: boolean, double: boolean): Plan | undefined {
  if (destructive) {
    if (lotSize < 100) return undefined;
    return {
      kind: 'destructive',
      stages: [{ n: 20, accept: 1, reject: 2 }],
      meanSample: 20,
      paragraph: 'Sch. 2 paras 3 and 4.6, single plan for destructive testing',
    };
  }
  if (lotSize < 100) {
    const accept = Math.floor(lotSize / 20); // 5 %, para 3.6
    return {
      kind: 'whole-batch',
      stages: [{ n: lotSize, accept, reject: accept + 1 }],
      meanSample: lotSize,
      paragraph: 'Sch. 2 paras 2.8, 3.6 and 4.7, every pack of a batch below 100',
    };
  }
  const row = rows.find(({ upTo }) => lotSize <= upTo);
  if (row === undefined) return undefined;
  return double
    ? {
        kind: 'double',
        stages: row.double,
        meanSample: row.meanSample,
        paragraph: 'Sch. 2 paras 3.7 and 4.5, double plan for non-destructive testing',
      }
    : {
        kind: 'single',
        stages: [row.single],
        meanSample: row.meanSample,
        paragraph: 'Sch. 2 paras 3.3 and 4.5, single plan for non-destructive testing',
      };
}

export type ContentsVerdict = 'accept' | 'reject' | 'incomplete' | 'second-sample';

/**
 * Verdict on the count of packs below T1, stage by stage over the packs in the order they were drawn.
 * A rejection that is already certain does not wait for the rest of its stage.
 */
export function judgeContents(
  stages: readonly Stage[],
  grams: readonly number[],
  t1: number,
): { verdict: ContentsVerdict; defective: number } {
  let defective = 0;
  let weighed = 0;
  for (const [place, stage] of stages.entries()) {
    for (const weight of grams.slice(weighed, stage.n)) if (weight < t1) defective += 1;
    if (defective >= stage.reject) return { verdict: 'reject', defective };
    if (grams.length < stage.n) return { verdict: place > 0 && grams.length === weighed ? 'second-sample' : 'incomplete', defective };
    if (defective <= stage.accept) return { verdict: 'accept', defective };
    weighed = stage.n;
  }
  return { verdict: 'reject', defective };
}
