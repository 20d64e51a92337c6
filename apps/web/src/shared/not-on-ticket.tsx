import { counterView } from '@bakehouse/contracts';
import { Link } from 'wouter';
import { Notice, Section, StateWord } from '../ui';
import { unsaidText } from './contents-words';
import { whole } from './format';
import { formulasInUse } from './in-force';
import { office } from './office-paths';
import { useNow, useTabletState } from './tablet-context';
import { LoadingText, useLoaded } from './use-loaded';
import { useUpToDate } from './use-up-to-date';

/** Today's products that hold by what was used what their ticket does not say: the very answers that the counter gives. */
function useNotOnTicket() {
  const { site } = useTabletState();
  const { reply, reload } = useLoaded('/counter/{site}', counterView, {
    params: { path: { site: site.id }, query: { organisation: site.organisation } },
  });
  useUpToDate(reload);
  return { reply, found: reply?.as === 'ok' ? reply.value.products.filter((p) => p.notOnTicket.length > 0) : [] };
}

/** For the first page of the office: somebody has to decide about each, since a customer with an allergy goes by the ticket. */
export function ProductsNotOnTicket() {
  const { snapshot } = useTabletState();
  const { reply, found } = useNotOnTicket();
  const formulas = formulasInUse(snapshot, useNow(60_000));
  if (reply?.as === 'ok' && found.length === 0) return null;
  const pageOf = (product: string): string => {
    const version = formulas.find((f) => f.content.products.some((p) => p.product === product));
    return version === undefined ? office.material(product) : office.formula(version.id);
  };
  return (
    <Section title={reply?.as === 'ok' ? `In the food and not on the ticket: ${whole(found.length)}` : 'In the food and not on the ticket'}>
      {reply === undefined ? <LoadingText what="whether today’s food holds what its ticket does not say" /> : null}
      {reply && reply.as !== 'ok' ? <p className="empty">It is not known here now: the bakehouse’s computer did not answer.</p> : null}
      {found.length === 0 ? null : (
        <>
          <p>Do not sell these or send them out under the usual label. Correct the record if it is wrong, or have a new label made.</p>
          <ul className="rows">
            {found.map((p) => (
              <li key={p.product}>
                <Link href={pageOf(p.product)} className="row">
                  <StateWord shape="diamond" tone="bad">
                    not on the ticket
                  </StateWord>
                  <span className="row-main">
                    <strong>{unsaidText(p.name, p.notOnTicket)}</strong>
                  </span>
                  {p.onCounter ? <span className="row-side">on the counter</span> : null}
                </Link>
              </li>
            ))}
          </ul>
        </>
      )}
    </Section>
  );
}

/** The same on the page of what it is about. */
export function NotOnTicketOf({ products }: { readonly products: readonly string[] }) {
  const { found } = useNotOnTicket();
  return found
    .filter((p) => products.includes(p.product))
    .map((p) => (
      <Notice key={p.product} tone="bad" title="Today’s food contains what the ticket does not say">
        <p>{unsaidText(p.name, p.notOnTicket)}. Do not sell it or send it out under the usual label.</p>
      </Notice>
    ));
}
