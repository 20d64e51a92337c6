import type { PayloadFor } from '@bakehouse/records';
import { useState } from 'react';
import { CoversChoice } from './covers-choice';
import { SignButton } from './sign-button';
import { Button, Field, Sheet } from './ui';

interface Props {
  readonly lot: string;
  readonly name: string;
  readonly onDone: () => void;
}

/** A lot that was used although the record that it came with was withdrawn is accepted: signed, with the reason and what it covers. */
export function AcceptWithdrawn({ lot, name, onDone }: Props) {
  const [open, setOpen] = useState(false);
  const [covers, setCovers] = useState<PayloadFor<'withdrawn-lot-accepted'>['covers'] | null>(null);
  const [why, setWhy] = useState('');
  return (
    <>
      <Button look="quiet" label={`Accept ${name} after all`} onClick={() => setOpen(true)}>
        Accept after all
      </Button>
      {open ? (
        <Sheet title={`Accept ${name}, whose record was withdrawn?`} onClose={() => setOpen(false)}>
          <p>
            The record that it came with was withdrawn, and something was done with it. Where it was another lot that is on record, identify
            it on the page of the lot instead. What was made of it stays on hold unless you say that it is covered.
          </p>
          <CoversChoice value={covers} onChange={setCovers} />
          <Field label="Why it may be used after all" value={why} onChange={setWhy} lines={2} maxLength={500} required />
          {covers === null ? null : (
            <SignButton
              text="Sign and accept"
              disabled={why.trim() === ''}
              draft={{ kind: 'withdrawn-lot-accepted', payload: { lot, covers }, words: { why } }}
              onDone={() => {
                setOpen(false);
                onDone();
              }}
            />
          )}
        </Sheet>
      ) : null}
    </>
  );
}
