import { phrase, recallLotDecision, type PayloadFor } from '@bakehouse/records';
import { useState } from 'react';
import { CoversChoice } from '../../shared/covers-choice';
import { SignButton } from '../../shared/sign-button';
import type { LotInTheHouse } from '../../shared/trace/where-it-went';
import { Choice, Field, figureOf, NumberPad, Sheet } from '../../shared/ui';

type Decision = PayloadFor<'recall-disposition-decided'>;

interface Props {
  readonly recall: string;
  readonly lot: LotInTheHouse;
  readonly onClose: () => void;
  readonly onDone: () => void;
}

/** The disposition of one lot that the case holds. Nothing is chosen beforehand, so that no more is released than was meant. */
export function DecideLot({ recall, lot, onClose, onDone }: Props) {
  const [decision, setDecision] = useState<Decision['decision'] | null>(null);
  const [chosen, setCovers] = useState<Decision['covers'] | null>(null);
  const [amount, setAmount] = useState('');
  const [why, setWhy] = useState('');
  const freed = decision === 'freed';
  const covers = freed ? chosen : 'this-alone';
  const figure = freed ? undefined : figureOf(amount);
  const unit = lot.measure === 'pieces' ? 'piece' : 'kg';
  const name = `${lot.name}${lot.code === null ? '' : `, lot ${lot.code}`}`;
  return (
    <Sheet title={`Decide on ${name}`} onClose={onClose}>
      <Choice
        label="Disposition"
        value={decision}
        onChange={setDecision}
        options={recallLotDecision.options.map((d) => ({ value: d, text: phrase(`recallLotDecision.${d}`) }))}
      />
      {freed ? <CoversChoice value={chosen} onChange={setCovers} /> : null}
      {decision === null || freed ? null : (
        <NumberPad
          label="How much of it? Leave it empty for all of it"
          unit={unit === 'piece' ? 'pieces' : unit}
          decimals={unit === 'kg'}
          value={amount}
          onChange={setAmount}
        />
      )}
      <Field label="Why" value={why} onChange={setWhy} lines={2} maxLength={1000} required />
      {decision === null || covers === null ? null : (
        <SignButton
          text={`Sign: ${phrase(`recallLotDecision.${decision}`)}`}
          disabled={why.trim() === ''}
          draft={{
            kind: 'recall-disposition-decided',
            payload: { recall, lot: lot.lot, decision, covers, quantity: figure === undefined ? null : { figure, unit } },
            words: { why },
          }}
          onDone={onDone}
        />
      )}
    </Sheet>
  );
}
