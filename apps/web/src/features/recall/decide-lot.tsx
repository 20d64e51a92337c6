import type { RecallView } from '@bakehouse/contracts';
import { phrase, recallLotDecision, type PayloadFor } from '@bakehouse/records';
import { useState } from 'react';
import { useAmount } from '../../shared/amount-pad';
import { CoversChoice } from '../../shared/covers-choice';
import { HowMuchGoes, moreThanLeft, typedText, unitsBeside } from '../../shared/how-much-goes';
import { SignButton } from '../../shared/sign-button';
import type { LotInTheHouse } from '../../shared/trace/where-it-went';
import { dayTime } from '../../shared/trace/words';
import { Choice, Field, Notice, Sheet } from '../../ui';

type Decision = PayloadFor<'recall-disposition-decided'>;

interface Props {
  readonly recall: Pick<RecallView, 'id' | 'closedAt'>;
  readonly zone: string;
  readonly lot: LotInTheHouse;
  readonly onClose: () => void;
  readonly onDone: () => void;
}

/** The disposition of one lot that the case holds. Nothing is chosen beforehand, so that no more is released than was meant. */
export function DecideLot({ recall, zone, lot, onClose, onDone }: Props) {
  const [decision, setDecision] = useState<Decision['decision'] | null>(null);
  const [chosen, setCovers] = useState<Decision['covers'] | null>(null);
  const amount = useAmount(unitsBeside(lot, [lot.measure === 'pieces' ? 'piece' : 'kg']));
  const [why, setWhy] = useState('');
  const freed = decision === 'freed';
  const covers = freed ? chosen : 'this-alone';
  const name = `${lot.name}${lot.code === null ? '' : `, lot ${lot.code}`}`;
  return (
    <Sheet title={`Decide on ${name}`} onClose={onClose}>
      {recall.closedAt === null ? null : (
        <Notice tone="ask" title={`This case was closed on ${dayTime(recall.closedAt, zone)}`}>
          <p>What it held stayed on hold, and is decided on all the same. The record says that it was decided after the close.</p>
        </Notice>
      )}
      <Choice
        label="Disposition"
        value={decision}
        onChange={setDecision}
        options={recallLotDecision.options.map((d) => ({ value: d, text: phrase(`recallLotDecision.${d}`) }))}
      />
      {freed ? <CoversChoice value={chosen} onChange={setCovers} /> : null}
      {decision === null || freed ? null : <HowMuchGoes amount={amount} left={lot} />}
      <Field label="Why" value={why} onChange={setWhy} lines={2} maxLength={1000} required />
      {decision === null || covers === null ? null : (
        <SignButton
          text={`Sign: ${phrase(`recallLotDecision.${decision}`)}`}
          says={`${phrase(`recallLotDecision.${decision}`)}, ${freed ? phrase(`covers.${covers}`) : typedText(amount)}: ${name}.`}
          question={freed ? undefined : moreThanLeft(amount, lot, null)}
          disabled={why.trim() === ''}
          draft={{
            kind: 'recall-disposition-decided',
            payload: { recall: recall.id, lot: lot.lot, decision, covers, quantity: freed ? null : amount.quantity },
            words: { why },
          }}
          onDone={onDone}
        />
      )}
    </Sheet>
  );
}
