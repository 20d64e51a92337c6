import type { Row } from '@bakehouse/records';
import { useState } from 'react';
import { useAct } from '../../shared/use-act';
import { Button, Field, NumberPad, Sheet } from '../../ui';

interface Props {
  readonly recall: string;
  readonly party: string;
  readonly name: string;
  /** Whether the device knows the case yet. */
  readonly ready: boolean;
  readonly onRecorded: () => void;
}

/** What came of a call, by one tap; “informed” asks how many they still have. Kept on the device first, so that a lost network loses no call. */
export function ContactKeys({ recall, party, name, ready, onRecorded }: Props) {
  const [informed, setInformed] = useState(false);
  const [pieces, setPieces] = useState('');
  const [said, setSaid] = useState('');
  const { act, busy, trouble } = useAct();
  const record = async (answer: Row<'recallContact'>['answer']): Promise<void> => {
    const held = answer === 'told' && /^\d+$/.test(pieces) ? Number(pieces) : null;
    if (!(await act({ kind: 'recall-contact-made', payload: { recall, party, answer, piecesHeld: held }, words: { said } }))) return;
    setInformed(false);
    setPieces('');
    setSaid('');
    onRecorded();
  };
  return (
    <>
      {informed ? null : trouble}
      <div className="contact-keys">
        <Button needs="record" look="plain" disabled={busy || !ready} onClick={() => setInformed(true)} label={`${name}: informed`}>
          Informed
        </Button>
        <Button
          needs="record"
          look="plain"
          disabled={busy || !ready}
          onClick={() => void record('not-reached')}
          label={`${name}: no answer`}
        >
          No answer
        </Button>
        <Button
          needs="record"
          look="plain"
          disabled={busy || !ready}
          onClick={() => void record('message-left')}
          label={`${name}: message left`}
        >
          Message left
        </Button>
      </div>
      {informed ? (
        <Sheet title={`${name}: informed`} onClose={() => setInformed(false)}>
          {trouble}
          <NumberPad
            label="How many do they still have? Leave it empty if they do not know"
            unit="pieces"
            value={pieces}
            onChange={setPieces}
            decimals={false}
            onEnter={() => void record('told')}
          />
          <Field label="Who it was and what they said, if you like" value={said} onChange={setSaid} lines={2} maxLength={1000} />
          <div className="buttons">
            <Button look="go" disabled={busy} onClick={() => void record('told')}>
              Record the call
            </Button>
          </div>
        </Sheet>
      ) : null}
    </>
  );
}
