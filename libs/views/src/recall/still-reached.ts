import type { TraceFlow } from '@bakehouse/graph';
import { grouped } from '@bakehouse/kernel';

/** Whether a lot is no food of the one before it: it touched that, or may be that. A case begins there, and what comes of it is found by following. */
export const beginsAnew = (by: Pick<TraceFlow, 'type'>): boolean => by.type === 'contact' || by.type === 'perhaps';

/**
 * What a case still reaches, not through lots that were freed together with what came of them; each with whether it is food of another such lot, and so held as soon as
 * that is, or only touched one or may be one.
 */
export function stillReached(
  flows: readonly TraceFlow[],
  suspects: readonly string[],
  freed: ReadonlySet<string>,
): ReadonlyMap<string, 'food' | 'begins'> {
  const out = grouped(flows, (f) => f.source);
  const reached = new Map<string, 'food' | 'begins'>(suspects.map((lot) => [lot, 'begins']));
  for (const [lot] of reached)
    for (const f of freed.has(lot) ? [] : (out.get(lot) ?? []))
      if (!beginsAnew(f)) reached.set(f.target, 'food');
      else if (!reached.has(f.target)) reached.set(f.target, 'begins');
  return reached;
}
