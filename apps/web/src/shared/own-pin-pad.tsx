import { useState, type ReactNode } from 'react';
import { PinPad } from './pin-pad';
import type { Trouble } from './trouble-of';

interface Props {
  readonly name: string;
  /** The PIN that they have, where it was typed already. */
  readonly has?: string | undefined;
  readonly trouble: Trouble | undefined;
  readonly busy: boolean;
  readonly onClose: () => void;
  /** The PIN that they have and the one that is to be in its place. */
  readonly onPins: (pin: string, newPin: string) => void;
  /** What is said before the first step. */
  readonly children?: ReactNode;
}

/** What has been typed: the PIN that they have, then the new one, then that again. */
interface Typed {
  readonly pin?: string | undefined;
  readonly first?: string;
  readonly differed?: boolean;
}

/** What a PIN is refused for that its owner mends by choosing another. */
export const wantsAnotherPin: ReadonlySet<string> = new Set(['pin-not-own', 'pin-too-short']);
const differ = { title: 'The two are not the same', detail: 'Type the new PIN twice, the same both times.' };

/** A new PIN of one's own, in place of the one that one has. */
export function OwnPinPad({ name, has, trouble, busy, onClose, onPins, children }: Props) {
  const [{ pin, first, differed }, setTyped] = useState<Typed>({ pin: has });
  const give = (typed: string): void => {
    if (pin === undefined) setTyped({ pin: typed });
    else if (first === undefined) setTyped({ pin, first: typed });
    else if (typed !== first) setTyped({ pin, differed: true });
    else {
      setTyped({ pin: has }); // where it is not taken they begin again
      onPins(pin, typed);
    }
  };
  const asks = pin === undefined ? 'the PIN that you have' : first === undefined ? 'the new PIN' : 'the new PIN once more';
  return (
    <PinPad title={`${name}: ${asks}`} trouble={differed === true ? differ : trouble} busy={busy} onClose={onClose} onPin={give}>
      {first === undefined ? children : null}
    </PinPad>
  );
}
