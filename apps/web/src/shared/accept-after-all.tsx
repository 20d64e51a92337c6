import type { NewEntry, PayloadFor } from '@bakehouse/records';
import { useState, type ReactNode } from 'react';
import { CoversChoice } from './covers-choice';
import { SignButton } from './sign-button';
import { Button, Field, Sheet } from '../ui';

type Covers = PayloadFor<'withdrawn-lot-accepted'>['covers'];

interface Props {
  readonly name: string;
  readonly title: string;
  readonly onDone: () => void;
  /** What is said, and what is to be chosen besides. */
  readonly children: ReactNode;
  /** What is signed, by what it covers and why; null until what else is to be chosen was. */
  readonly draft: (covers: Covers, why: string) => NewEntry | null;
  /** Whether everything else that is to be written is. */
  readonly ready: boolean;
}

/** Food that something speaks against is accepted after all: signed, with the reason and what it covers. Nothing is chosen beforehand. */
export function AcceptAfterAll({ name, title, onDone, children, draft, ready }: Props) {
  const [open, setOpen] = useState(false);
  const [covers, setCovers] = useState<Covers | null>(null);
  const [why, setWhy] = useState('');
  const entry = covers === null ? null : draft(covers, why);
  return (
    <>
      <Button look="quiet" label={`Accept after all: ${name}`} onClick={() => setOpen(true)}>
        Accept after all
      </Button>
      {open ? (
        <Sheet title={title} onClose={() => setOpen(false)}>
          {children}
          <CoversChoice value={covers} onChange={setCovers} />
          <Field label="Why it may be used after all" value={why} onChange={setWhy} lines={2} maxLength={500} required />
          {entry === null ? null : (
            <SignButton
              text="Sign and accept"
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
