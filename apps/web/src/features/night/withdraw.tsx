import { useState } from 'react';
import { correctionReasons, ReasonField } from '../../shared/reason-field';
import { Button, Sheet } from '../../ui';
import { useAct } from '../../shared/use-act';

interface Props {
  /** The record, or the first one of its corrections. */
  readonly root: string;
  readonly what: string;
  readonly reason?: string;
  readonly onDone: () => void;
  readonly onClose: () => void;
}

/** Takes a record back whole, with the reason. */
export function Withdraw({ root, what, reason: proposed = '', onDone, onClose }: Props) {
  const [reason, setReason] = useState(proposed);
  const { act, busy, trouble } = useAct();
  const withdraw = async (): Promise<void> => {
    if (await act({ kind: 'entry-withdrawn', corrects: root, words: { reason }, payload: {} })) onDone();
  };
  return (
    <Sheet title="Take it back" onClose={onClose}>
      {trouble}
      <p>{what}. It stays readable as taken back; a deviation that it opened stays open until somebody closes it.</p>
      <ReasonField label="Why?" reasons={correctionReasons} value={reason} onChange={setReason} />
      <div className="buttons">
        <Button look="grave" disabled={busy || reason.trim() === ''} onClick={() => void withdraw()}>
          Take it back
        </Button>
      </div>
    </Sheet>
  );
}
