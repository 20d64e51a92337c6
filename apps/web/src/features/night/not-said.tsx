import { contentsView } from '@bakehouse/contracts';
import { unsaidText } from '../../shared/contents-words';
import { useTabletState } from '../../shared/tablet-context';
import { useLoaded } from '../../shared/use-loaded';
import { Notice } from '../../ui';

/** What a batch contains by what was used and its product does not say by formula, as the service works it out. */
export function NotSaid({ batch }: { readonly batch: string }) {
  const { site } = useTabletState();
  const { reply } = useLoaded('/sites/{site}/contents', contentsView, { params: { path: { site: site.id }, query: { lots: batch } } });
  if (reply === undefined) return <p className="hint">What it contains by what was used is being worked out.</p>;
  const found = reply?.as === 'ok' ? reply.value.filter((p) => p.notOnTicket.length > 0) : [];
  return found.map((p) => (
    <Notice key={p.product} tone="bad" title="It contains what its product does not say">
      <p>{unsaidText(p.name, p.notOnTicket)}. Do not release it or send it out under its usual label: tell the person who decides.</p>
    </Notice>
  ));
}
