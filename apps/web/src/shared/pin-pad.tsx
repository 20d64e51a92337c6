import { useState, type ReactNode } from 'react';
import { Button, NumberPad, Sheet } from '../ui';
import { TroubleNotice } from './trouble-notice';

interface Props {
  readonly title: string;
  readonly onPin: (pin: string) => void;
  readonly onClose: () => void;
  readonly busy: boolean;
  readonly trouble?: { readonly title: string; readonly detail: string } | undefined;
  readonly children?: ReactNode;
}

/** A PIN, for a sign-on or to sign one thing. It goes to the service and nowhere else. */
export function PinPad({ title, onPin, onClose, busy, trouble, children }: Props) {
  const [pin, setPin] = useState('');
  const ready = /^\d{4,8}$/.test(pin) && !busy;
  const give = (): void => {
    if (!ready) return;
    onPin(pin);
    setPin('');
  };
  return (
    <Sheet title={title} onClose={onClose}>
      <TroubleNotice of={trouble} />
      <NumberPad label="PIN, four to eight figures" value={pin} onChange={setPin} decimals={false} hide onEnter={give} maxDigits={8} />
      <div className="buttons">
        <Button look="go" disabled={!ready} onClick={give}>
          {busy ? 'One moment…' : 'Go on'}
        </Button>
      </div>
      {children}
    </Sheet>
  );
}
