import { refuse, type Outcome } from '@bakehouse/kernel';
import * as z from 'zod';

export const sidedSignal = z.object({
  side: z.enum(['high', 'low']),
  index: z.int().meta({ description: 'zero-based place of the point' }),
});
export type SidedSignal = z.infer<typeof sidedSignal>;

/** The centre under either of its two names; refuses two that differ. */
export function oneCentre(centre: number | undefined, target: number | undefined): Outcome<number | undefined> {
  const differ = centre !== undefined && target !== undefined && centre !== target;
  if (differ) return refuse('unacceptable-value', 'target', 'either centre or target, not two different values');
  return { ok: true, value: centre ?? target };
}
