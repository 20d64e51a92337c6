import { asking, inNameOf } from '@bakehouse/api-client';
import { signature } from '@bakehouse/contracts';
import { problems, type Refused } from '@bakehouse/kernel';
import { kindNamed, type NewEntry } from '@bakehouse/records';
import { useState } from 'react';
import { PinPad } from './pin-pad';
import { useTable, useTabletState } from './tablet-context';
import { Button, Notice, Refusal } from './ui';
import { troubleOf, type Trouble } from './trouble-of';

interface Props {
  readonly text: string;
  readonly draft: NewEntry;
  readonly disabled?: boolean;
  readonly onDone?: () => void;
}
/** Gives the token with which the service says that this PIN signs exactly this entry, or the trouble instead. */
function useSignature(draft: NewEntry) {
  const { people, person } = useTable();
  return async (pin: string, entry: unknown): Promise<{ readonly token: string } | { readonly trouble: Trouble }> => {
    const proof = people.isProven(person.id) ? undefined : await people.withPin(person.id, pin); // a tapped name may not decide
    if (proof && !proof.ok) return { trouble: proof.problem };
    if (proof && !proof.person.permissions.includes(kindNamed(draft.kind).permission)) return { trouble: problems['not-permitted'] };
    const reply = await asking({ as: inNameOf(people, person.id) })('post', '/signatures', signature, { body: { pin, entry } });
    if (reply.as === 'ok') return { token: reply.value.signature };
    return { trouble: troubleOf(reply, 'What is signed is decided on line. What you typed stands here; sign when the network is back.') };
  };
}

/** Something that is signed: the PIN goes to the service, which signs exactly this entry; the entry then goes the way of all others. */
export function SignButton({ text, draft, disabled = false, onDone }: Props) {
  const { tablet, person } = useTable();
  const { connected } = useTabletState();
  const [asking, setAsking] = useState(false);
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<Refused>();
  const [trouble, setTrouble] = useState<Trouble>();
  const signatureFor = useSignature(draft);
  const sign = async (pin: string): Promise<void> => {
    setBusy(true);
    setTrouble(undefined);
    setRefused(undefined);
    const result = await tablet
      .recordSigned(draft, person.id, async (entry) => {
        const signed = await signatureFor(pin, entry);
        if ('token' in signed) return signed.token;
        setTrouble(signed.trouble);
        return undefined;
      })
      .catch(() => {
        setTrouble({ title: 'This tablet could not keep it', detail: 'Nothing was saved. Try again.' });
        return undefined;
      });
    setBusy(false);
    if (!result) return;
    setAsking(false);
    if (!result.ok) setRefused(result);
    else {
      await tablet.refresh();
      onDone?.();
    }
  };
  return (
    <>
      {refused ? <Refusal refused={refused} /> : null}
      {connected === false ? (
        <Notice tone="ask" title="Not connected">
          <p>This is decided on line and signed. It can be done when the network is back.</p>
        </Notice>
      ) : null}
      <div className="buttons">
        <Button look="go" disabled={disabled || busy} onClick={() => setAsking(true)}>
          {text}
        </Button>
      </div>
      {asking ? (
        <PinPad
          title={`${person.name}: sign`}
          busy={busy}
          trouble={trouble}
          onClose={() => {
            setAsking(false);
            setTrouble(undefined);
          }}
          onPin={(pin) => void sign(pin)}
        >
          <p>You sign: “{kindNamed(draft.kind).signed}”.</p>
        </PinPad>
      ) : null}
    </>
  );
}
