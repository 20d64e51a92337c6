import type { NewEntry, PayloadFor } from '@bakehouse/records';
import { useState, type ReactNode } from 'react';
import { CoversChoice } from './covers-choice';
import { SignedReason } from './signed-reason';

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
  const [covers, setCovers] = useState<Covers | null>(null);
  return (
    <SignedReason
      text="Accept after all"
      label={`Accept after all: ${name}`}
      title={title}
      onDone={onDone}
      why="Why it may be used after all"
      sign="Sign and accept"
      draft={(why) => (covers === null ? null : draft(covers, why))}
      ready={ready}
    >
      {children}
      <CoversChoice value={covers} onChange={setCovers} />
    </SignedReason>
  );
}
