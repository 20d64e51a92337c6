import { AcceptAfterAll } from './accept-after-all';

interface Props {
  readonly lot: string;
  readonly name: string;
  readonly onDone: () => void;
}

/** A lot that was used although the record that it came with was withdrawn is accepted. */
export function AcceptWithdrawn({ lot, name, onDone }: Props) {
  return (
    <AcceptAfterAll
      name={name}
      title={`Accept ${name}, whose record was withdrawn?`}
      onDone={onDone}
      ready
      draft={(covers, why) => ({ kind: 'withdrawn-lot-accepted', payload: { lot, covers }, words: { why } })}
    >
      <p>
        The record that it came with was withdrawn, and something was done with it. Where it was another lot that is on record, identify it
        on the page of the lot instead. What was made of it stays on hold unless you say that it is covered.
      </p>
    </AcceptAfterAll>
  );
}
