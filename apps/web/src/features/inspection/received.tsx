import type { InspectedDelivery } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { dayText } from '../../shared/format';
import { ofLot } from '../../shared/trace/words';
import { Empty, StateWord } from '../../ui';
import { whenAndWhoText } from '../../shared/inspected/when-and-who';
import { Readings } from './readings';

const marks = { accepted: ['disc', 'good'], refused: ['triangle', 'bad'], 'accepted-with-condition': ['diamond', 'ask'] } as const;

/** What came in, lot by lot, with its temperature and what was decided. */
export function Received({ deliveries, zone }: { readonly deliveries: readonly InspectedDelivery[]; readonly zone: string }) {
  if (deliveries.length === 0) return <Empty>Nothing came in in this time.</Empty>;
  return (
    <ul className="made">
      {deliveries.map((d) => (
        <li key={d.id} className="card">
          <h3>{d.supplier ?? 'Supplier not known'}</h3>
          <p className="faint">
            {d.noteNumber === null ? 'no paper' : `note ${d.noteNumber}`}
            {d.unattended ? ', found, nobody was there' : ''}, {whenAndWhoText(d, zone)}
          </p>
          {d.lots.map((l) => (
            <div key={l.id} className="received">
              <p>
                <strong>{l.name}</strong> {l.asWritten ?? ofLot(l)},{' '}
                {l.code === null ? phrase(`codeState.${l.codeState}` as PhraseKey) : `lot ${l.code}`}
                {l.identified ? `, identified ${whenAndWhoText(l.identified, zone)}` : ''}
                {l.useBy === null ? '' : `, use by ${dayText(l.useBy)}`}
                {l.bestBefore === null ? '' : `, best before ${dayText(l.bestBefore)}`}
              </p>
              <Readings readings={l.temperatures} zone={zone} />
              {l.decisions.map((c, i) => {
                const [shape, tone] = marks[c.decision === 'refused' || c.decision === 'accepted-with-condition' ? c.decision : 'accepted'];
                return (
                  <p key={`${c.at} ${i}`}>
                    <StateWord shape={shape} tone={tone}>
                      {phrase(`decision.${c.decision}` as PhraseKey)}
                    </StateWord>{' '}
                    {c.condition} <span className="faint">{whenAndWhoText(c, zone)}</span>
                  </p>
                );
              })}
            </div>
          ))}
        </li>
      ))}
    </ul>
  );
}
