import { phrase, receiptChoice } from '@bakehouse/records';
import { useState } from 'react';
import { AcceptRefused } from '../../shared/accept-refused';
import { useAct } from '../../shared/use-act';
import { useTable } from '../../shared/tablet-context';
import { Button, Choice, Field, Sheet } from '../../ui';
import { NameLot } from './name-lot';

interface Props {
  readonly lot: string;
  readonly name: string;
  readonly decided: boolean;
  /** It was refused, and no signed decision ended that. */
  readonly refused: boolean;
  readonly notIdentified: boolean;
  readonly onDone: () => void;
}

/** Whether it may be used, and what it is called: the two things that a line can still need. */
export function DecideKeys({ lot, name, decided, refused, notIdentified, onDone }: Props) {
  const [open, setOpen] = useState<'decide' | 'name'>();
  const close = (): void => setOpen(undefined);
  const done = (): void => {
    close();
    onDone();
  };
  return (
    <span className="line-keys">
      {notIdentified ? (
        <Button needs="record" onClick={() => setOpen('name')} label={`${name}: give its code`}>
          Give its code
        </Button>
      ) : null}
      {refused ? (
        <AcceptRefused lot={lot} name={name} onDone={onDone} />
      ) : (
        <Button
          needs="decide.goods"
          look={decided ? 'quiet' : 'plain'}
          onClick={() => setOpen('decide')}
          label={`${name}: ${decided ? 'decide again' : 'decide'}`}
        >
          {decided ? 'Decide again' : 'Decide'}
        </Button>
      )}
      {open === 'decide' ? <DecideSheet lot={lot} name={name} onClose={close} onDone={done} /> : null}
      {open === 'name' ? <NameLot lot={lot} name={name} onClose={close} onDone={done} /> : null}
    </span>
  );
}

function DecideSheet({
  lot,
  name,
  onClose,
  onDone,
}: {
  readonly lot: string;
  readonly name: string;
  readonly onClose: () => void;
  readonly onDone: () => void;
}) {
  const [decision, setDecision] = useState<(typeof receiptChoice.options)[number] | null>(null);
  const [condition, setCondition] = useState('');
  const [note, setNote] = useState('');
  const { act, busy, trouble } = useAct();
  const { tablet } = useTable();
  const save = async (): Promise<void> => {
    if (decision === null) return;
    const words = { note, ...(decision === 'accepted-with-condition' ? { condition } : {}) };
    if (!(await act({ kind: 'receipt-decided', payload: { lot, decision }, words }))) return;
    await tablet.refresh(); // it is decided on line: the answer is the service's
    onDone();
  };
  return (
    <Sheet title={`May ${name} be used?`} onClose={onClose}>
      {trouble}
      <Choice
        label="Decision"
        hideLabel
        value={decision}
        onChange={setDecision}
        options={receiptChoice.options.map((d) => ({ value: d, text: phrase(`decision.${d}`) }))}
      />
      {decision === 'accepted-with-condition' ? (
        <Field label="On which condition" value={condition} onChange={setCondition} maxLength={300} required />
      ) : null}
      {decision === 'refused' ? (
        <p>Put it where nobody takes it, marked. If some of it was used already, the service says what it went into.</p>
      ) : null}
      <Field label="A few words, if you like" value={note} onChange={setNote} lines={2} maxLength={500} />
      <div className="buttons">
        <Button
          look={decision === 'refused' ? 'grave' : 'go'}
          disabled={busy || decision === null || (decision === 'accepted-with-condition' && condition.trim() === '')}
          onClick={() => void save()}
        >
          Record the decision
        </Button>
      </div>
    </Sheet>
  );
}
