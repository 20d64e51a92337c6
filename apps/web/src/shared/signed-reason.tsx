import type { NewEntry } from '@bakehouse/records';
import { useState, type ReactNode } from 'react';
import { SignButton } from './sign-button';
import { Button, Field, Sheet } from '../ui';

interface Props {
  /** What the key says, and what it is about for those who hear it read. */
  readonly text: string;
  readonly label: string;
  readonly title: string;
  readonly onDone: () => void;
  /** What follows from it, and what is to be chosen besides. */
  readonly children: ReactNode;
  /** What the reason is asked as. */
  readonly why: string;
  readonly sign: string;
  /** What is signed, by its reason; null until what else is to be chosen was. */
  readonly draft: (why: string) => NewEntry | null;
  /** Whether everything else that is to be written is. */
  readonly ready?: boolean;
}

/** A decision that needs a reason and a signature: a key, what follows from it, why, and the PIN. */
export function SignedReason({ text, label, title, onDone, children, why: asked, sign, draft, ready = true }: Props) {
  const [open, setOpen] = useState(false);
  const [why, setWhy] = useState('');
  const entry = draft(why);
  return (
    <>
      <Button needs="decide.exception" look="quiet" label={label} onClick={() => setOpen(true)}>
        {text}
      </Button>
      {open ? (
        <Sheet title={title} onClose={() => setOpen(false)}>
          {children}
          <Field label={asked} value={why} onChange={setWhy} lines={2} maxLength={500} required />
          {entry === null ? null : (
            <SignButton
              text={sign}
              disabled={!ready || why.trim() === ''}
              draft={entry}
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
