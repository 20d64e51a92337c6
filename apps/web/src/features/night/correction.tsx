import type { KindName, PayloadFor } from '@bakehouse/records';
import { useState, type ReactNode } from 'react';
import { correctionReasons, ReasonField } from '../../shared/reason-field';
import { Button } from '../../ui';
import type { WhenAndWho } from '../../shared/night/when-who';
import { useAct } from '../../shared/use-act';

interface Props<K extends KindName> {
  readonly kind: K;
  /** The record that is corrected, or the first one of its corrections. */
  readonly root: string;
  /** A correction says the same of both as what it replaces. */
  readonly whenAndWho: WhenAndWho;
  /** Words that it was recorded with, and that stand in the correction too. */
  readonly words?: Readonly<Record<string, string>>;
  readonly disabled?: boolean;
  readonly payload: () => PayloadFor<K>;
  readonly onDone: () => void;
  readonly children: ReactNode;
}

/** A form that is filled in as it was recorded, the reason why it is corrected, and the correction. */
export function Correction<K extends KindName>({
  kind,
  root,
  whenAndWho,
  words = {},
  disabled = false,
  payload,
  onDone,
  children,
}: Props<K>) {
  const [reason, setReason] = useState('');
  const { act, busy, trouble } = useAct();
  const save = async (): Promise<void> => {
    if (await act({ kind, corrects: root, words: { ...words, reason }, ...whenAndWho, payload: payload() })) onDone();
  };
  return (
    <>
      {trouble}
      {children}
      <ReasonField label="Why is it corrected?" reasons={correctionReasons} value={reason} onChange={setReason} />
      <div className="buttons">
        <Button look="go" disabled={busy || disabled || reason.trim() === ''} onClick={() => void save()}>
          Correct it
        </Button>
      </div>
    </>
  );
}
