import type { BatchView } from '@bakehouse/views';
import { whole } from '../format';

/** A batch with how many pieces it has: all that were counted, or what is left of them by the records. */
export function batchText({ name, pieces, left }: Pick<BatchView, 'name' | 'pieces' | 'left'>): string {
  if (left === pieces) return `${name} × ${whole(pieces)}`;
  if (left === null) return `${name}: nobody knows how many are left of ${whole(pieces)}`;
  if (left < 0) return `${name}: ${whole(-left)} more went than the ${whole(pieces)} counted`;
  return `${name}: ${left === 0 ? 'none' : whole(left)} left of ${whole(pieces)}`;
}
