import type { ClosedOver, ClosedOverCounted } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';

/** Over what a case was closed and why, a sentence for each: the page of the case, its papers and the officer's read it here. */
export function closedOverTexts(over: ClosedOver | ClosedOverCounted | null): string[] {
  if (over === null) return [];
  const { notTold, notReached, whyAuthorityNotTold, whyNoNotice, whyNotReached } = over;
  const unreached = typeof notReached === 'number' ? countOf(notReached) : namesOf(notReached);
  return [
    ...(notTold.includes('authority') ? [`Closed without the authority being recorded as told: ${quoted(whyAuthorityNotTold)}`] : []),
    ...(notTold.includes('public') ? [`Closed without a notice to the public being recorded: ${quoted(whyNoNotice)}`] : []),
    ...(unreached === '' ? [] : [`Not reached when it was closed: ${unreached}. ${quoted(whyNotReached)}`]),
  ];
}

const countOf = (customers: number): string => (customers === 0 ? '' : countText(customers, 'customer'));

/** Names as far as the reader gets them, and how many besides. */
function namesOf(customers: ClosedOver['notReached']): string {
  const names = customers.flatMap((c) => c.name ?? []);
  const more = customers.length - names.length;
  return [...names, ...(more === 0 ? [] : [countText(more, 'customer')])].join(', ');
}

const quoted = (reason: string | null): string => (reason === null ? 'the reason is withheld' : `“${reason}”`);
