import type { RecallView } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import { moreThanWent } from '@bakehouse/views';
import { useState } from 'react';
import { useAct } from '../../shared/use-act';
import { Button, Field, Notice, NumberPad, Sheet } from '../../ui';

interface Props {
  readonly recall: string;
  readonly party: string;
  readonly name: string;
  /** How much went to them by the records. */
  readonly went: Pick<RecallView['trace']['contacts'][number], 'pieces' | 'piecesUnknown'>;
  /** Whether the device knows the case yet. */
  readonly ready: boolean;
  readonly onRecorded: () => void;
}

/** What came of a call, by one tap; “informed” asks how many they still have. Kept on the device first, so that a lost network loses no call. */
export function ContactKeys({ recall, party, name, went, ready, onRecorded }: Props) {
  const [informed, setInformed] = useState(false);
  const [pieces, setPieces] = useState('');
  const [said, setSaid] = useState('');
  const [doubted, setDoubted] = useState(false);
  const { act, busy, trouble } = useAct();
  const figure = /^\d+$/.test(pieces) ? Number(pieces) : null;
  const tooMany = figure !== null && moreThanWent({ piecesHeld: figure, ...went });
  const close = (): void => {
    setInformed(false);
    setDoubted(false);
  };
  const record = async (answer: Row<'recallContact'>['answer']): Promise<void> => {
    const held = answer === 'told' ? figure : null;
    if (!(await act({ kind: 'recall-contact-made', payload: { recall, party, answer, piecesHeld: held }, words: { said } }))) return;
    close();
    setPieces('');
    setSaid('');
    onRecorded();
  };
  /** A slip on the pad is common: what they say is recorded all the same, once it was asked again. */
  const informedOnce = async (): Promise<void> => {
    if (tooMany && !doubted) setDoubted(true);
    else await record('told');
  };
  const key = (says: string, text: string, onClick: () => void) => (
    <Button needs="record" look="plain" disabled={busy || !ready} onClick={onClick} label={`${name}: ${says}`}>
      {text}
    </Button>
  );
  return (
    <>
      {informed ? null : trouble}
      <div className="contact-keys">
        {key('informed', 'Informed', () => setInformed(true))}
        {key('no answer', 'No answer', () => void record('not-reached'))}
        {key('message left', 'Message left', () => void record('message-left'))}
      </div>
      {informed ? (
        <Sheet title={`${name}: informed`} onClose={close}>
          {trouble}
          <NumberPad
            label="How many do they still have? Leave it empty if they do not know"
            unit="pieces"
            value={pieces}
            onChange={(typed) => {
              setPieces(typed);
              setDoubted(false);
            }}
            decimals={false}
            onEnter={() => void informedOnce()}
          />
          <Field label="Who it was and what they said, if you like" value={said} onChange={setSaid} lines={2} maxLength={1000} />
          {doubted ? <MoreThanWent says={pieces} went={went.pieces} /> : null}
          <div className="buttons">
            <Button look="go" disabled={busy} onClick={() => void informedOnce()}>
              {doubted ? `They do say ${pieces}: record it` : 'Record the call'}
            </Button>
          </div>
        </Sheet>
      ) : null}
    </>
  );
}

const MoreThanWent = ({ says, went }: { readonly says: string; readonly went: number }) => (
  <Notice tone="ask" title={`${says} is more than went there: ${countText(went, 'piece')} by the records`}>
    <p>Ask again, or correct the figure. If they do say so, record it: goods of another day or lot may be among them.</p>
  </Notice>
);
