import type { RecallView } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { isOnHold } from '@bakehouse/views';
import { useState } from 'react';
import { InTheHouse, type LotInTheHouse } from '../../shared/trace/where-it-went';
import { dayTime, ofLot } from '../../shared/trace/words';
import { Button, Section, StateWord, useMay } from '../../ui';
import { DecideLot } from './decide-lot';

interface Props {
  readonly recall: RecallView;
  readonly zone: string;
  readonly onDecided: () => void;
}

/** Every lot that may be here: on hold, decided on in the case, or, loudly, neither. What the case holds is decided on here, closed or not. */
export function CaseInTheHouse({ recall, zone, onDecided }: Props) {
  const [deciding, setDeciding] = useState<LotInTheHouse>();
  const mayDecide = useMay('decide.recall') && !recall.practice;
  const held = (o: LotInTheHouse): boolean => o.concerns.some((c) => c.id === recall.id);
  const states = (o: LotInTheHouse) => (
    <>
      <Decisions recall={recall} lot={o.lot} zone={zone} />
      {isOnHold(o) || recall.decisions.some((d) => d.lot === o.lot) ? null : <NotOnHold />}
      {mayDecide && held(o) ? (
        <Button label={`Decide on it: ${o.name}${o.code === null ? '' : `, lot ${o.code}`}`} onClick={() => setDeciding(o)}>
          Decide on it
        </Button>
      ) : null}
    </>
  );
  return (
    <>
      <Section title={recall.practice ? 'Would be put on hold' : 'In the house'}>
        {recall.practice ? (
          <InTheHouse trace={recall.trace} recall={recall} />
        ) : (
          <InTheHouse trace={recall.trace} recall={recall} states={states} />
        )}
      </Section>
      <DecidedAndGone recall={recall} zone={zone} />
      {deciding ? (
        <DecideLot
          recall={recall}
          zone={zone}
          lot={deciding}
          onClose={() => setDeciding(undefined)}
          onDone={() => {
            setDeciding(undefined);
            onDecided();
          }}
        />
      ) : null}
    </>
  );
}

const NotOnHold = () => (
  <strong>
    <StateWord shape="diamond" tone="bad">
      NOT ON HOLD
    </StateWord>
  </strong>
);

interface DecisionsProps {
  readonly recall: RecallView;
  readonly lot: string;
  readonly zone: string;
}

/** What was decided about a lot in the case: how much of it, when, and that it was after the case was closed. */
function Decisions({ recall: { decisions, closedAt }, lot, zone }: DecisionsProps) {
  return decisions
    .filter((d) => d.lot === lot)
    .map((d) => {
      const freed = d.decision === 'freed';
      const said = [
        phrase(`recallLotDecision.${d.decision}`),
        freed ? phrase(`covers.${d.covers}`) : d.pieces === null && d.mg === null ? 'all of it' : ofLot(d),
        dayTime(d.at, zone),
        ...(closedAt !== null && d.at >= closedAt ? ['after the case was closed'] : []),
      ];
      return (
        <StateWord key={d.at} shape={freed ? 'disc' : 'empty'} tone={freed ? 'good' : 'calm'}>
          {said.join(', ')}
        </StateWord>
      );
    });
}

/** What was done away with is not in the house any more; that it was decided here stays in sight. */
function DecidedAndGone({ recall, zone }: Omit<Props, 'onDecided'>) {
  const here = new Set(recall.trace.onHand.map((o) => o.lot));
  const gone = recall.trace.lots.filter((l) => !here.has(l.id) && recall.decisions.some((d) => d.lot === l.id));
  if (gone.length === 0) return null;
  return (
    <Section title="Decided on in this case, and gone">
      <ul className="rows">
        {gone.map((l) => (
          <li key={l.id} className="row">
            <span className="row-main">
              <strong>{l.name}</strong>
              {l.code === null ? '' : `, lot ${l.code}`}
            </span>
            <Decisions recall={recall} lot={l.id} zone={zone} />
          </li>
        ))}
      </ul>
    </Section>
  );
}
