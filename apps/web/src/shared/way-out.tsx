import type { ConcernView } from '@bakehouse/contracts';
import type { ReactNode } from 'react';
import { LinkButton } from '../ui';
import { AcceptFromPlace } from './accept-from-place';
import { AcceptRefused } from './accept-refused';
import { AcceptWithdrawn } from './accept-withdrawn';
import { paths } from './night/paths';
import { office } from './office-paths';
import { SignedReason } from './signed-reason';

interface Props {
  readonly concern: ConcernView;
  /** The lot that it speaks against. */
  readonly lot: string;
  readonly name: string;
  readonly onDone: () => void;
}

const weighAgain = (
  <span className="hint">
    Confirm it: read it again with a thermometer that passed its check. Or decide on it, signed: on the deviation of the failed check, or a
    batch by exception.
  </span>
);

/**
 * Where what speaks against a lot is ended: never by closing something, always by a decision or by a record put right. What came along with something else
 * is ended there, by the same key, though none of that may be left.
 */
export function WayOut({ concern: c, lot, name, onDone }: Props): ReactNode {
  switch (c.type) {
    case 'recall':
      return <LinkButton to={office.recall(c.id)}>The case</LinkButton>;
    case 'open-deviation':
    case 'closed-deviation':
      return <LinkButton to={paths.deviation(c.id)}>The deviation</LinkButton>;
    case 'held':
      return <Lift hold={c.id} name={c.fromName} onDone={onDone} />;
    case 'place-held':
      return <AcceptFromPlace hold={c.id} lot={lot} name={name} onDone={onDone} />;
    case 'refused':
      return <AcceptRefused lot={c.from} name={c.fromName} onDone={onDone} />;
    case 'withdrawn':
      return <AcceptWithdrawn lot={c.from} name={c.fromName} onDone={onDone} />;
    case 'weigh-again':
      return weighAgain;
    case 'unsettled':
      return <span className="hint">Read it again; or release the batch by exception.</span>;
    case 'first-load-outside':
    case 'first-load-not-read':
      return <FirstLoad batch={c.from} />;
    case 'not-read':
      return <NotRead concern={c} />;
    case 'nothing-weighed-in':
      return <span className="hint">Record what was weighed in to {c.fromName}.</span>;
    case 'more-out-than-in':
      return <span className="hint">Correct what was weighed in to {c.fromName}, or its make-up.</span>;
    case 'more-baked-than-divided':
      return (
        <>
          <span className="hint">Correct the make-up or a count of {c.fromName}: the same pieces may have been counted twice.</span>
          <LinkButton to={paths.run(c.from)}>What was counted out of it</LinkButton>
        </>
      );
    case 'counted-twice':
      return (
        <>
          <span className="hint">Take one of the batches back, or correct a count: the same pieces cannot be in two.</span>
          <LinkButton to={paths.batch(c.from)}>The batch of {c.fromName}</LinkButton>
        </>
      );
    case 'code-given-twice':
      return (
        <>
          <span className="hint">Give it its own code, and label it with that.</span>
          <LinkButton to={paths.batch(c.from)}>The batch of {c.fromName}</LinkButton>
        </>
      );
    case 'more-back-than-sent':
      return <span className="hint">Correct what came back of {c.fromName}, or what was sent: food of another lot may be among it.</span>;
    case 'rework-against-rule':
      return <AgainstRule concern={c} />;
    case 'used-past-use-by':
    case 'used-past-life':
      return <UsedPast concern={c} />;
    case 'past-life':
      return <PastLife concern={c} />;
    case 'used-after-clean-out':
      return <span className="hint">Correct the time of the clean-out, or which content went into {c.fromName}.</span>;
    case 'more-gone-than-there-was':
      return <span className="hint">Count {c.fromName}, or correct what was destroyed, used or sent out of it.</span>;
  }
}

function FirstLoad({ batch }: { readonly batch: string }) {
  return (
    <>
      <span className="hint">
        The first load of the day is read for this one too. Read the core of this one’s own loads, or decide on it, signed: by the deviation
        of that load, or by exception.
      </span>
      <LinkButton to={paths.batch(batch)}>The batch</LinkButton>
    </>
  );
}

function NotRead({ concern: { from, fromName } }: { readonly concern: ConcernView }) {
  return (
    <>
      <span className="hint">
        A reading that was taken before and is not recorded yet, record it now with its time. Else say that it was not taken and decide on
        the food by that deviation, or release a batch of it by exception.
      </span>
      <LinkButton to={office.lot(from)}>{fromName}</LinkButton>
    </>
  );
}

function AgainstRule({ concern: { from, fromName } }: { readonly concern: ConcernView }) {
  return (
    <>
      <span className="hint">
        Decide on it by the deviation about what was weighed in to {fromName}, or release a batch of it by exception. If an amount or a lot
        is wrong, correct that record.
      </span>
      <LinkButton to={office.lot(from)}>{fromName}</LinkButton>
    </>
  );
}

function UsedPast({ concern: { from, fromName } }: { readonly concern: ConcernView }) {
  return (
    <>
      <span className="hint">
        Decide on it by the deviation about that use, or release a batch of it by exception. If the date, the time or the lot is wrong,
        correct that record.
      </span>
      <LinkButton to={office.lot(from)}>{fromName}</LinkButton>
    </>
  );
}

function PastLife({ concern: { from, fromName } }: { readonly concern: ConcernView }) {
  return (
    <>
      <span className="hint">
        Throw it away and record that. If it may be used after all, report it as a deviation and decide on it, signed. If it was opened
        anew, or what was open is used up, record that.
      </span>
      <LinkButton to={office.lot(from)}>{fromName}</LinkButton>
    </>
  );
}

const Lift = ({ hold, name, onDone }: { readonly hold: string; readonly name: string; readonly onDone: () => void }) => (
  <SignedReason
    text="Lift the hold"
    label={`Lift the hold on ${name}`}
    title={`Lift the hold on ${name}?`}
    onDone={onDone}
    why="Why it may be used after all"
    sign="Sign and lift the hold"
    draft={(why) => ({ kind: 'hold-lifted', payload: { hold }, words: { why } })}
  >
    <p>This lifts the hold on it and on what was made of it. Anything else that speaks against it stays.</p>
  </SignedReason>
);
