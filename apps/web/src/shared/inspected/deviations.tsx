import type { InspectedDeviation } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { TakenBack } from '../taken-back';
import { Empty, StateWord } from '../../ui';
import { closedText, dispositionText, signedText } from './decided-words';
import { whenAndWhoText } from './when-and-who';

/** Deviations, each with its corrective action, the disposition of the food, and who closed it. Open ones first. */
export function Deviations({ deviations, zone }: { readonly deviations: readonly InspectedDeviation[]; readonly zone: string }) {
  if (deviations.length === 0) return <Empty>Nothing was found outside its limit or reported in this time.</Empty>;
  const sorted = [...deviations].sort((a, b) => Number(a.closed !== null) - Number(b.closed !== null) || (a.at < b.at ? 1 : -1));
  return (
    <ul className="cards wide">
      {sorted.map((d) => (
        <One key={d.id} d={d} zone={zone} />
      ))}
    </ul>
  );
}

function One({ d, zone }: { readonly d: InspectedDeviation; readonly zone: string }) {
  return (
    <li className="card">
      <h3>
        {d.subjectName ?? 'The site'}: {phrase(`deviation.${d.type}` as PhraseKey)}
      </h3>
      <p>
        <span className={`class ${d.class}`}>{phrase(`class.${d.class}` as PhraseKey)}</span> <State d={d} />
      </p>
      <p>
        {d.summary}
        {d.note === null || d.note === d.summary ? '' : ` “${d.note}”`}{' '}
        <span className="faint">
          {whenAndWhoText(d, zone)}
          {d.reportedAtSite === null ? '' : `, reported at ${d.reportedAtSite}`}
        </span>{' '}
        <TakenBack of={d.takenBack} />
      </p>
      <dl className="words">
        <dt>Corrective action</dt>
        <dd>
          {d.actions.length === 0 ? (
            nothingDone(d)
          ) : (
            <ul>
              {d.actions.map((a, i) => (
                <li key={`${a.at} ${i}`}>
                  {phrase(`action.${a.type}` as PhraseKey)}
                  {a.action === null ? '' : `: ${a.action}`} <span className="faint">{whenAndWhoText(a, zone)}</span>
                </li>
              ))}
            </ul>
          )}
        </dd>
        {d.disposition.length === 0 ? null : (
          <>
            <dt>Disposition</dt>
            <dd>
              <ul>
                {d.disposition.map((b, i) => (
                  <li key={`${b.at} ${i}`}>
                    {dispositionText(b)} <span className="faint">{signedText(b, zone)}</span>
                  </li>
                ))}
              </ul>
            </dd>
          </>
        )}
        {d.closed ? (
          <>
            <dt>Closed</dt>
            <dd>{closedText(d.closed, zone)}</dd>
          </>
        ) : null}
      </dl>
    </li>
  );
}

function State({ d }: { readonly d: InspectedDeviation }) {
  if (d.closed === null) return <Open d={d} />;
  return d.onHold ? (
    <StateWord shape="gate" tone="bad">
      closed; on hold: what is left of the food is still to be decided on
    </StateWord>
  ) : (
    <StateWord shape="disc" tone="good">
      closed
    </StateWord>
  );
}

/** A decision on the food, or what was said at the close, is an answer too: only where there is neither was nothing done by the records. */
const nothingDone = (d: InspectedDeviation): string =>
  d.disposition.length > 0 ? 'see the disposition' : d.closed?.review ? 'see what was said at the close' : 'nothing on record';

function Open({ d }: { readonly d: InspectedDeviation }) {
  if (d.actions.length + d.disposition.length > 0)
    return (
      <StateWord shape="ring" tone="calm">
        answered, not closed yet
      </StateWord>
    );
  return d.onHold ? (
    <StateWord shape="gate" tone="bad">
      not answered, on hold
    </StateWord>
  ) : (
    <StateWord shape="diamond" tone="ask">
      not answered
    </StateWord>
  );
}
