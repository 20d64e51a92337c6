import { useState, type ReactNode } from 'react';
import { kindNamed, type NewEntry } from '@bakehouse/records';
import { useTabletState } from './tablet-context';
import { Button, For, Notice, Sheet } from '../ui';
import { usePinned } from './use-pinned';
import { useSigned } from './use-signed';

interface Props {
  readonly text: string;
  readonly draft: NewEntry;
  /** What exactly is signed, where the words of the signature do not name it. */
  readonly says?: string;
  /** What looks wrong in it: asked once more before the PIN. */
  readonly question?: string | undefined;
  /** What stands under that question, and what the key says that goes back. */
  readonly under?: ReactNode;
  readonly back?: string;
  readonly disabled?: boolean;
  readonly onDone?: () => void;
}

/** Something that is signed, for those who may: the PIN goes to the service, which signs exactly this entry. */
export const SignButton = (props: Props) => (
  <For needs={kindNamed(props.draft.kind).permission}>
    <Signing {...props} />
  </For>
);

function Signing({ text, draft, says, question, under, back = 'Change the amount', disabled = false, onDone }: Props) {
  const { connected } = useTabletState();
  const signed = useSigned();
  const { withPin, busy, pad } = usePinned();
  const [doubted, setDoubted] = useState(false);
  const ask = (): void => {
    setDoubted(false);
    withPin(`You sign: “${kindNamed(draft.kind).signed}”.${says === undefined ? '' : ` ${says}`}`, async (pin) => {
      const result = await signed(pin, draft);
      if (result.as === 'trouble') return result.trouble;
      onDone?.();
      return undefined;
    });
  };
  return (
    <>
      {connected === false ? (
        <Notice tone="ask" title="Not connected">
          <p>This is decided on line and signed. It can be done when the network is back.</p>
        </Notice>
      ) : null}
      <div className="buttons">
        <Button look="go" disabled={disabled || busy} onClick={question === undefined ? ask : () => setDoubted(true)}>
          {text}
        </Button>
      </div>
      {doubted && question !== undefined ? (
        <Sheet title={question} onClose={() => setDoubted(false)}>
          {under}
          <div className="buttons">
            <Button look="go" onClick={() => setDoubted(false)}>
              {back}
            </Button>
            <Button look="grave" onClick={ask}>
              Sign all the same
            </Button>
          </div>
        </Sheet>
      ) : null}
      {pad}
    </>
  );
}
