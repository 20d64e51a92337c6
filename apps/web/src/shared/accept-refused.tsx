import { phrase, type PayloadFor } from '@bakehouse/records';
import { useState } from 'react';
import { AcceptAfterAll } from './accept-after-all';
import { Choice, Field } from '../ui';

interface Props {
  readonly lot: string;
  readonly name: string;
  readonly onDone: () => void;
}

/** Goods that were refused are accepted after all, with a condition or without. */
export function AcceptRefused({ lot, name, onDone }: Props) {
  const [decision, setDecision] = useState<PayloadFor<'refused-goods-accepted'>['decision'] | null>(null);
  const [condition, setCondition] = useState('');
  const conditional = decision === 'accepted-with-condition';
  return (
    <AcceptAfterAll
      name={name}
      title={`Accept ${name}, which was refused?`}
      onDone={onDone}
      ready={!conditional || condition.trim() !== ''}
      draft={(covers, why) =>
        decision === null
          ? null
          : { kind: 'refused-goods-accepted', payload: { lot, decision, covers }, words: { why, ...(conditional ? { condition } : {}) } }
      }
    >
      <p>
        This is signed by somebody who decides about affected food. What was made of it stays on hold unless you say that it is covered.
      </p>
      <Choice
        label="Decision"
        value={decision}
        onChange={setDecision}
        options={(['accepted', 'accepted-with-condition'] as const).map((d) => ({ value: d, text: phrase(`decision.${d}`) }))}
      />
      {conditional ? <Field label="On which condition" value={condition} onChange={setCondition} maxLength={300} required /> : null}
    </AcceptAfterAll>
  );
}
