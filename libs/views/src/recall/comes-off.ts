import type { RecallView, TraceView } from '@bakehouse/contracts';
import { isOnHold } from '../standing/standing.js';

/**
 * Which lots of a trace have to come off the house's own shelves: what is on hold or past its use-by date, a lot in an open case, and in the trace of an open
 * case everything that was not freed in it. Anything else may be sold.
 */
export function comesOff(
  trace: Pick<TraceView, 'suspects' | 'cases' | 'onHand'>,
  recall?: Pick<RecallView, 'closedAt' | 'decisions'>,
): (lot: string) => boolean {
  const kept = new Set(trace.onHand.filter((o) => isOnHold(o) || o.pastUseBy !== null).map((o) => o.lot));
  const freed = new Set(recall?.decisions.filter((d) => d.decision === 'freed').map((d) => d.lot));
  const inCase = trace.cases.some((c) => !c.practice && c.closedAt === null) ? trace.suspects : [];
  return (lot) => kept.has(lot) || inCase.includes(lot) || (recall?.closedAt === null && !freed.has(lot));
}
