import { kindNamed, type NewEntry } from '@bakehouse/records';
import { useTabletState } from './tablet-context';
import { Button, For, Notice } from '../ui';
import { usePinned } from './use-pinned';
import { useSigned } from './use-signed';

interface Props {
  readonly text: string;
  readonly draft: NewEntry;
  readonly disabled?: boolean;
  readonly onDone?: () => void;
}

/** Something that is signed, for those who may: the PIN goes to the service, which signs exactly this entry. */
export const SignButton = (props: Props) => (
  <For needs={kindNamed(props.draft.kind).permission}>
    <Signing {...props} />
  </For>
);

function Signing({ text, draft, disabled = false, onDone }: Props) {
  const { connected } = useTabletState();
  const signed = useSigned();
  const { withPin, busy, pad } = usePinned();
  const ask = (): void =>
    withPin(`You sign: “${kindNamed(draft.kind).signed}”.`, async (pin) => {
      const result = await signed(pin, draft);
      if (result.as === 'trouble') return result.trouble;
      onDone?.();
      return undefined;
    });
  return (
    <>
      {connected === false ? (
        <Notice tone="ask" title="Not connected">
          <p>This is decided on line and signed. It can be done when the network is back.</p>
        </Notice>
      ) : null}
      <div className="buttons">
        <Button look="go" disabled={disabled || busy} onClick={ask}>
          {text}
        </Button>
      </div>
      {pad}
    </>
  );
}
