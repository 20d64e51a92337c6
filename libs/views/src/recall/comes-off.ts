import type { RecallView, TraceView } from '@bakehouse/contracts';
import type { ComesOff } from '../standing/shelves-text.js';
import { isOnHold } from '../standing/standing.js';

/**
 * Which lots of a trace have to come off the house's own shelves: what is on hold or past its use-by date, a lot in an open case, and in the trace of an open
 * case everything that was not freed in it; in that of a practice it would. Anything else may be sold.
 */
export function comesOff(
  trace: Pick<TraceView, 'suspects' | 'cases' | 'onHand'>,
  recall?: Pick<RecallView, 'closedAt' | 'practice' | 'decisions'>,
): (lot: string) => ComesOff {
  const kept = new Set(trace.onHand.filter((o) => isOnHold(o) || o.pastUseBy !== null).map((o) => o.lot));
  const freed = new Set(recall?.decisions.filter((d) => d.decision === 'freed').map((d) => d.lot));
  const inCase = trace.cases.some((c) => !c.practice && c.closedAt === null) ? trace.suspects : [];
  return (lot) => {
    if (kept.has(lot) || inCase.includes(lot)) return true;
    return recall?.closedAt === null && !freed.has(lot) && (recall.practice ? 'practice' : true);
  };
}
