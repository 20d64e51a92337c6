import { sealView, type RecallView } from '@bakehouse/contracts';
import { dayTime } from '../../shared/trace/words';
import { useLoaded } from '../../shared/use-loaded';

/** Prints the contact list and nothing else of the page. Everybody who may see the case may print it: bakers make calls from it. */
export function printContactList(): void {
  document.body.dataset['print'] = 'contacts';
  window.addEventListener('afterprint', () => delete document.body.dataset['print'], { once: true });
  window.print();
}

/** At the foot of every printed page: which case, as of when, under which seal, and the caution. */
export function PrintedFoot({ recall, zone }: { readonly recall: RecallView; readonly zone: string }) {
  const { reply } = useLoaded('/organisation/seal', sealView);
  const seal = reply?.as === 'ok' ? reply.value.line : 'seal not known';
  return (
    <p className="print-foot" aria-hidden="true">
      {recall.practice ? <strong>PRACTICE. NOT A REAL RECALL. </strong> : null}
      Case {recall.id.slice(-12)}, {recall.hazardName}, scope frozen {dayTime(recall.openedAt, zone)}, code {recall.scopeHash.slice(0, 12)};{' '}
      {seal}. {recall.trace.caution}
    </p>
  );
}
