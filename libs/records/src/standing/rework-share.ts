import type { Need, Row, State } from '../base/state.js';
import type { FormulaContent } from '../rows/formula-content.js';
import { grouped } from '@bakehouse/kernel';
import type { PutIn } from './put-back.js';

/** Bounds in milligrams; null where nobody can say how much at most. */
export interface Bounds {
  readonly atLeast: number;
  readonly atMost: number | null;
}

/** Hundredths of a percent, rounded up so that what is above a limit never reads as at it; null where there is nothing to divide by. */
const shareBp = (part: number, whole: number): number | null =>
  whole === 0 ? null : Number((BigInt(part) * 10_000n + BigInt(whole) - 1n) / BigInt(whole));
const isWithin = (part: number, whole: number, maxBp: number): boolean => BigInt(part) * 10_000n <= BigInt(maxBp) * BigInt(whole);

export interface ShareFound {
  /** What it may be at most; null where nobody can say. */
  readonly bp: number | null;
  /** Above the limit whatever the amounts that nobody knows are; else it only cannot be shown to be within. */
  readonly certain: boolean;
}

/** Whether rework is more than so much of the flour, or cannot be shown not to be; exactly at the limit is within. Null where it is within. */
export function shareAbove(rework: Bounds, flour: Bounds, maxBp: number): ShareFound | null {
  if (rework.atMost !== null && isWithin(rework.atMost, flour.atLeast, maxBp)) return null;
  const certain = flour.atMost !== null && !isWithin(rework.atLeast, flour.atMost, maxBp);
  return { bp: rework.atMost === null ? null : shareBp(rework.atMost, flour.atLeast), certain };
}

/** The mass of lines, what went in as one of several lots once. A piece weighs at most what it was scaled at. */
export function massOfLines(state: State, lines: readonly PutIn[]): Bounds {
  const each = [...grouped(lines, ({ flow }) => flow.anyOf ?? flow.id).values()].map((group): Bounds => {
    const all = group.map((line) => massOf(state, line));
    const atMost = all.some((m) => m.atMost === null) ? null : Math.max(...all.map((m) => m.atMost ?? 0));
    return { atLeast: Math.min(...all.map((m) => m.atLeast)), atMost };
  });
  return {
    atLeast: each.reduce((sum, m) => sum + m.atLeast, 0),
    atMost: each.some((m) => m.atMost === null) ? null : each.reduce((sum, m) => sum + (m.atMost ?? 0), 0),
  };
}

function massOf(state: State, { flow: { mg, pieces }, lot }: PutIn): Bounds {
  if (mg !== null) return { atLeast: mg, atMost: mg };
  const batch: Need = { in: 'batch', id: lot.id };
  const run: Need = { in: 'run', id: (state.knows(batch) ? state.get('batch', lot.id)?.run : undefined) ?? lot.id };
  const scaling = state.knows(run) ? state.get('run', run.id)?.scalingMg : undefined;
  return { atLeast: 0, atMost: scaling === undefined || pieces === null ? null : scaling * pieces };
}

/** What has to be looked for, as far as can be named now, before what a line weighs can be asked. */
export function massNeeds(state: State, { flow, lot }: PutIn): Need[] {
  if (flow.mg !== null) return [];
  const batch: Need = { in: 'batch', id: lot.id };
  return [batch, ...(state.knows(batch) ? [{ in: 'run', id: state.get('batch', lot.id)?.run ?? lot.id } satisfies Need] : [])];
}

export const flourNeeds = (make: string): Need[] => [
  { in: 'oneOff', by: 'make', value: make },
  { in: 'divided', by: 'make', value: make },
  { in: 'makeEnded', by: 'make', value: make },
  { in: 'flow', by: 'source', value: make },
];

/**
 * The flour in a make: what was weighed in of the lines of flour of its formula, or of what was allowed instead of one. As long as nothing was taken of it, and it was not
 * ended, at least what is planned, since that is still to be weighed in; null where nobody planned an amount and no flour is in yet.
 */
export function flourIn(
  state: State,
  make: Row<'make'>,
  { lines }: FormulaContent,
  others: readonly PutIn[],
  at: string | null,
): Bounds | null {
  const then = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((r) => at === null || r.at <= at);
  const materials = new Set(lines.filter((l) => l.flour).map((l) => l.material));
  for (const { material, instead } of then(state.find('oneOff', 'make', make.id)))
    if (material !== null && instead !== null && materials.has(material)) materials.add(instead);
  const groups = [...grouped(others, ({ flow }) => flow.anyOf ?? flow.id).values()];
  const isFlour = ({ lot, flow }: PutIn): boolean => flow.type !== 'aid' && materials.has(lot.material);
  const surely = massOfLines(state, groups.filter((g) => g.every(isFlour)).flat());
  const perhaps = massOfLines(state, groups.filter((g) => g.some(isFlour)).flat());
  const weighed = { atLeast: surely.atLeast, atMost: perhaps.atMost };
  const isUsed = [
    ...state.find('divided', 'make', make.id),
    ...state.find('makeEnded', 'make', make.id),
    ...state.find('flow', 'source', make.id),
  ];
  if (then(isUsed).length > 0) return weighed;
  const planned = make.scalePpm === null ? null : plannedFlour(lines, make.scalePpm);
  if (planned === null) return weighed.atMost === 0 ? null : weighed;
  return { atLeast: Math.max(weighed.atLeast, planned), atMost: weighed.atMost === null ? null : Math.max(weighed.atMost, planned) };
}

const plannedFlour = (lines: FormulaContent['lines'], scalePpm: number): number =>
  lines.reduce((mg, l) => mg + (l.flour ? Math.floor((l.mg * scalePpm) / 1_000_000) : 0), 0);
