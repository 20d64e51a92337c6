import { phrase, type PayloadFor } from '@bakehouse/records';
import { useState } from 'react';
import { CoversChoice } from './covers-choice';
import { SignButton } from './sign-button';
import { Button, Choice, Field, Sheet } from './ui';

type Acceptance = PayloadFor<'refused-goods-accepted'>;

interface Props {
  readonly lot: string;
  readonly name: string;
  readonly onDone: () => void;
}

/** Goods that were refused are accepted after all: signed, with the reason and what it covers. Nothing is chosen beforehand. */
export function AcceptRefused({ lot, name, onDone }: Props) {
  const [open, setOpen] = useState(false);
  const [decision, setDecision] = useState<Acceptance['decision'] | null>(null);
  const [covers, setCovers] = useState<Acceptance['covers'] | null>(null);
  const [condition, setCondition] = useState('');
  const [why, setWhy] = useState('');
  const conditional = decision === 'accepted-with-condition';
  const ready = decision !== null && covers !== null && why.trim() !== '' && (!conditional || condition.trim() !== '');
  return (
    <>
      <Button look="quiet" label={`Accept ${name} after all`} onClick={() => setOpen(true)}>
        Accept after all
      </Button>
      {open ? (
        <Sheet title={`Accept ${name}, which was refused?`} onClose={() => setOpen(false)}>
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
          <CoversChoice value={covers} onChange={setCovers} />
          <Field label="Why it may be used after all" value={why} onChange={setWhy} lines={2} maxLength={500} required />
          {decision === null || covers === null ? null : (
            <SignButton
              text="Sign and accept"
              disabled={!ready}
              draft={{
                kind: 'refused-goods-accepted',
                payload: { lot, decision, covers },
                words: { why, ...(conditional ? { condition } : {}) },
              }}
              onDone={() => {
                setOpen(false);
                onDone();
              }}
            />
          )}
        </Sheet>
      ) : null}
    </>
  );
}
