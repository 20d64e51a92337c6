import type { InspectionView } from '@bakehouse/contracts';
import { celsiusText, secondsText } from '@bakehouse/kernel';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { Holds } from '../../shared/inspected/holds';
import { whenAndWhoText } from '../../shared/inspected/when-and-who';
import { Empty, StateWord } from '../../ui';

interface Props {
  readonly checks: InspectionView['checks'];
  readonly zone: string;
}

/** Probes against ice and boiling water, clean-downs, readings that were not taken, holds. */
export function Checks(props: Props) {
  return (
    <>
      <Probes {...props} />
      <CleanDowns {...props} />
      <NotTaken {...props} />
      <h3>Put on hold by hand</h3>
      <p className="faint">What a recall case or a deviation holds stands under what is on hold now, and with the deviations.</p>
      <Holds {...props.checks} zone={props.zone} />
    </>
  );
}

function Probes({ checks, zone }: Props) {
  return (
    <>
      <h3>Probes checked</h3>
      {checks.probes.length === 0 ? (
        <Empty>No probe was checked in this time.</Empty>
      ) : (
        <ul className="rows">
          {checks.probes.map((p) => (
            <li key={p.id} className="row">
              {p.passed ? (
                <StateWord shape="disc" tone="good">
                  right
                </StateWord>
              ) : (
                <StateWord shape="broken" tone="bad">
                  off
                </StateWord>
              )}
              <span className="row-main">
                <strong>{p.instrument}</strong> {phrase(`probeWay.${p.way}` as PhraseKey)}: {celsiusText(p.shownMilli)}, should be{' '}
                {celsiusText(p.referenceMilli)} ± {celsiusText(p.toleranceMilli)}
              </span>
              <span className="row-side">{whenAndWhoText(p, zone)}</span>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

function CleanDowns({ checks, zone }: Props) {
  return (
    <>
      <h3>Cleaned down</h3>
      {checks.cleanDowns.length === 0 ? (
        <Empty>No clean-down is on record in this time.</Empty>
      ) : (
        <ul className="rows">
          {checks.cleanDowns.map((c) => (
            <li key={c.id} className="row">
              <span className="row-main">
                <strong>{c.place ?? 'a place'}</strong> {phrase(`cleanDown.${c.type}` as PhraseKey)}
                {c.chemical === null ? '' : `, ${c.chemical}${c.dilution === null ? '' : ` ${c.dilution}`}`}
                {c.contactSeconds === null ? '' : `, ${secondsText(c.contactSeconds)} on`}
              </span>
              <span className="row-side">{whenAndWhoText(c, zone)}</span>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

function NotTaken({ checks, zone }: Props) {
  return (
    <>
      <h3>Not taken</h3>
      {checks.notTaken.length === 0 ? (
        <Empty>Nothing was answered as not taken.</Empty>
      ) : (
        <ul className="rows">
          {checks.notTaken.map((n) => (
            <li key={n.id} className="row">
              <span className="row-main">
                <strong>{n.subjectName ?? 'the site'}</strong> {n.point}: {phrase(`notTaken.${n.answer}` as PhraseKey)}
              </span>
              <span className="row-side">{whenAndWhoText(n, zone)}</span>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
