import { inspectedDeviation } from '@bakehouse/contracts';
import { inOrder } from '@bakehouse/kernel';
import { findingText, letsUse, phrase } from '@bakehouse/records';
import type { DeviationView } from '@bakehouse/views';
import { useEffect, useRef } from 'react';
import { whenText } from '../../shared/format';
import { closedText, dispositionText, signedText, whoDecidesText } from '../../shared/inspected/decided-words';
import { useNight } from '../../shared/night/use-night';
import { ofLot } from '../../shared/trace/words';
import { useLoaded } from '../../shared/use-loaded';
import { Section } from '../../ui';

/**
 * What was decided about the food and who signed it, why, who closed it and when; who has to decide next where it is open. Who and why are not on the tablet: without a
 * network what it holds is shown, and that the rest is missing.
 */
export function DecidedOnDeviation({ d }: { readonly d: DeviationView }) {
  const { state, zone } = useNight();
  const { reply, reload } = useLoaded('/sites/{site}/inspection/deviations/{deviation}', inspectedDeviation, {
    params: { path: { site: state.site.id, deviation: d.id } },
  });
  // Once what was decided here is on record, and whenever anything else is; what opens the page asks by itself.
  const askedAt = useRef(state.snapshot);
  useEffect(() => {
    if (askedAt.current === state.snapshot) return;
    askedAt.current = state.snapshot;
    void reload();
  }, [state.snapshot, reload]);
  // What was decided on this tablet and is not sent yet, the service does not tell.
  const told = reply?.as === 'ok' && reply.value.disposition.length >= d.dispositions.length ? reply.value : null;
  return (
    <>
      {told === null ? (
        <Dispositions d={d} />
      ) : told.disposition.length === 0 ? null : (
        <Section title="Disposition">
          <ul className="rows">
            {told.disposition.map((b, i) => (
              <li key={`${b.at} ${i}`} className="row">
                <span className="row-main">{dispositionText(b)}</span>
                <span className="row-side">{signedText(b, zone)}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
      {told?.closed ? (
        <Section title="Closed">
          <p>{closedText(told.closed, zone)}</p>
        </Section>
      ) : null}
      {d.state !== 'closed' || d.undecided.length > 0 ? <p>{whoDecidesText(d.state === 'closed')}</p> : null}
    </>
  );
}

/** What the tablet holds of the decisions: who signed them and why is with the service. */
function Dispositions({ d }: { readonly d: DeviationView }) {
  const { lookup, zone, now } = useNight();
  const decided = inOrder(lookup.state.find('disposition', 'deviation', d.id));
  if (decided.length === 0) return null;
  return (
    <Section title="Disposition">
      <ul className="rows">
        {decided.map((p) => (
          <li key={p.id} className="row">
            <span className="row-main">
              {phrase(`disposition.${p.disposition}`)}
              {letsUse(p.disposition) ? `, ${phrase(`covers.${p.covers}`)}` : ''}
              {p.pieces === null && p.mg === null ? '' : `, ${ofLot(p)}`}: {lookup.state.get('lot', p.subject)?.name ?? 'what it is about'}
              {p.findings.length === 0 ? '' : `; also about: ${p.findings.map(findingText).join('; ')}`}
            </span>
            <span className="row-side">{whenText(p.at, now, zone)}</span>
          </li>
        ))}
      </ul>
      <p className="faint">Who signed it and why is shown once this is sent and the network is there.</p>
    </Section>
  );
}
