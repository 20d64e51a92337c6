import { useState } from 'react';
import { PinPad } from '../../shared/pin-pad';
import type { Trouble } from '../../shared/trouble-of';
import { Button } from '../../shared/ui';

interface Props {
  readonly name: string;
  readonly trouble: Trouble | undefined;
  readonly busy: boolean;
  readonly onClose: () => void;
  /** The PIN, and the one that is to be in its place where they want another. */
  readonly onPins: (pin: string, newPin?: string) => void;
}

/** What has been typed of a change: the PIN that they have, then the new one, then that again. */
interface Change {
  readonly pin?: string;
  readonly first?: string;
  readonly differed?: boolean;
}

const differ = { title: 'The two are not the same', detail: 'Type the new PIN twice, the same both times.' };

/** The PIN of somebody who signs on; or their PIN, and a new one twice. */
export function SignOnPad({ name, trouble, busy, onClose, onPins }: Props) {
  const [change, setChange] = useState<Change>();
  if (!change) {
    return (
      <PinPad title={name} trouble={trouble} busy={busy} onClose={onClose} onPin={(pin) => onPins(pin)}>
        <Button look="quiet" disabled={busy} onClick={() => setChange({})}>
          I want another PIN
        </Button>
      </PinPad>
    );
  }
  const { pin, first, differed } = change;
  const give = (typed: string): void => {
    if (pin === undefined) setChange({ pin: typed });
    else if (first === undefined) setChange({ pin, first: typed });
    else if (typed !== first) setChange({ pin, differed: true });
    else {
      setChange({}); // where it is not taken they begin again
      onPins(pin, typed);
    }
  };
  const asks = pin === undefined ? 'the PIN that you have' : first === undefined ? 'the new PIN' : 'the new PIN once more';
  return (
    <PinPad title={`${name}: ${asks}`} trouble={differed === true ? differ : trouble} busy={busy} onClose={onClose} onPin={give}>
      {pin === undefined ? <p>After that you are signed off wherever else you are signed on.</p> : null}
    </PinPad>
  );
}
