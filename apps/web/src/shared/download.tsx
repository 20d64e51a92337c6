import type { Ask, Reply } from '@bakehouse/api-client';
import { useState } from 'react';
import { Button } from '../ui';
import { useWho } from './who';
import { saveFile } from '../ui/save-file';
import { troubleOf } from './trouble-of';
import { TroubleNotice } from './trouble-notice';

/** A paper from the service, saved on this device. Leaving the house wants the PIN: it is asked for here. */
export function Download({
  from,
  name,
  text,
  look = 'plain',
}: {
  readonly from: (ask: Ask) => Promise<Reply<Blob>>;
  readonly name: string;
  readonly text: string;
  readonly look?: 'go' | 'plain';
}) {
  const { askPatiently } = useWho();
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const get = async (): Promise<void> => {
    setBusy(true);
    setTrouble(undefined);
    const reply = await from(askPatiently);
    setBusy(false);
    if (reply.as === 'ok') saveFile(reply.value, name);
    else setTrouble(troubleOf(reply, 'Try again when the network is back.'));
  };
  return (
    <>
      <Button look={look} disabled={busy} onClick={() => void get()}>
        {busy ? 'One moment…' : text}
      </Button>
      <TroubleNotice of={trouble} />
    </>
  );
}
