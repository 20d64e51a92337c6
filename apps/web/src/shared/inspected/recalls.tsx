import { countText } from '@bakehouse/kernel';
import type { InspectedRecall } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { closedOverTexts, toReachText } from '@bakehouse/views';
import { whole } from '../format';
import { dayTime, ofLot } from '../trace/words';
import { Empty, StateWord } from '../../ui';

interface Props {
  readonly recalls: readonly InspectedRecall[];
  readonly zone: string;
}

/** The recalls that were open at some time of the period and reached lots made at the site or brought to it: why, how far, whom they informed, what was decided, how they ended. */
export function Recalls({ recalls, zone }: Props) {
  if (recalls.length === 0) return <Empty>No recall of this time reaches lots of this site.</Empty>;
  return (
    <ul className="cards wide">
      {recalls.map((r) => (
        <li key={r.id} className="card">
          <h3>
            {r.practice ? 'Practice: ' : ''}
            {phrase(`hazard.${r.hazard}` as PhraseKey)}: {r.hazardName}
          </h3>
          <p>
            {r.closedAt === null ? (
              <StateWord shape="gate" tone={r.practice ? 'ask' : 'bad'}>
                open
              </StateWord>
            ) : (
              `closed ${dayTime(r.closedAt, zone)} by ${r.closedBy ?? 'somebody whose name is withheld'},`
            )}{' '}
            opened {dayTime(r.openedAt, zone)} by {r.openedBy ?? 'somebody whose name is withheld'}
            {r.said === null ? '' : `. Said: “${r.said}”`}
            {r.whyOnHold === null ? '' : `. Why it was closed with lots still on hold: “${r.whyOnHold}”`}
          </p>
          {closedOverTexts(r.closedOver).map((text) => (
            <p key={text}>{text}</p>
          ))}
          <dl className="words">
            <dt>Suspected</dt>
            <dd>{r.suspects.map((s) => `${s.name}, ${s.code ?? 'no code'}`).join('; ') || 'lots of another site'}</dd>
            <dt>How far</dt>
            <dd>
              {countText(r.lots, 'lot')} in its scope, {whole(r.lotsHere)} made at this site or brought to it;{' '}
              {countText(r.informed, 'customer')} informed in {countText(r.calls, 'call')}; <strong>{toReachText(r.toReach)}</strong>
            </dd>
            <dt>Authority and public</dt>
            <dd>
              <ToldOutside notified={r.notified} zone={zone} />
            </dd>
            <dt>Decided</dt>
            <dd>{r.decisions.length === 0 ? 'nothing yet about lots of this site' : <Decided decisions={r.decisions} zone={zone} />}</dd>
          </dl>
        </li>
      ))}
    </ul>
  );
}

const ToldOutside = ({ notified, zone }: { readonly notified: InspectedRecall['notified']; readonly zone: string }) => (
  <ul>
    {notified.some((n) => n.to === 'authority') ? null : <li>Nobody has recorded that the authority was told.</li>}
    {notified.map((n) => (
      <li key={n.id}>
        {phrase(`notifiedTo.${n.to}`)}, {phrase(`notifiedHow.${n.how}`)}
        {n.reference === null ? '' : `, reference ${n.reference}`}{' '}
        <span className="faint">
          {dayTime(n.at, zone)}, {n.by ?? 'name withheld'}
        </span>
      </li>
    ))}
  </ul>
);

const Decided = ({ decisions, zone }: { readonly decisions: InspectedRecall['decisions']; readonly zone: string }) => (
  <ul>
    {decisions.map((d) => (
      <li key={`${d.lot} ${d.at}`}>
        {d.name}, {d.code ?? 'no code'}: {phrase(`recallLotDecision.${d.decision}` as PhraseKey)}
        {d.pieces === null && d.mg === null ? '' : `, ${ofLot(d)}`}{' '}
        <span className="faint">
          {dayTime(d.at, zone)}, {d.by ?? 'name withheld'}
        </span>
      </li>
    ))}
  </ul>
);
