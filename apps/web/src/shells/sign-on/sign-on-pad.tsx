import { useState } from 'react';
import { OwnPinPad, wantsAnotherPin } from '../../shared/own-pin-pad';
import { PinPad } from '../../shared/pin-pad';
import type { Trouble } from '../../shared/trouble-of';
import { Button } from '../../ui';

interface Props {
  readonly name: string;
  readonly trouble: Trouble | undefined;
  readonly busy: boolean;
  readonly onClose: () => void;
  /** The PIN, and the one that is to be in its place where they want another. */
  readonly onPins: (pin: string, newPin?: string) => void;
}

/** The PIN of somebody who signs on; or their PIN, and a new one twice, where they want another or have to choose one. */
export function SignOnPad({ name, trouble, busy, onClose, onPins }: Props) {
  const [wantsAnother, setWantsAnother] = useState(false);
  const [given, setGiven] = useState<string>();
  const [mustChoose, setMustChoose] = useState(false);
  if (!mustChoose && given !== undefined && wantsAnotherPin.has(trouble?.problem ?? '')) setMustChoose(true);
  if (wantsAnother || mustChoose) {
    return (
      <OwnPinPad name={name} has={mustChoose ? given : undefined} trouble={trouble} busy={busy} onClose={onClose} onPins={onPins}>
        <p>After that you are signed off wherever else you are signed on.</p>
      </OwnPinPad>
    );
  }
  const give = (pin: string): void => {
    setGiven(pin);
    onPins(pin);
  };
  return (
    <PinPad title={name} trouble={trouble} busy={busy} onClose={onClose} onPin={give}>
      <Button look="quiet" disabled={busy} onClick={() => setWantsAnother(true)}>
        I want another PIN
      </Button>
    </PinPad>
  );
}
