import { AcceptAfterAll } from './accept-after-all';

interface Props {
  readonly hold: string;
  readonly lot: string;
  readonly name: string;
  readonly onDone: () => void;
}

/** Food that was at a place on hold, or came of such food, is accepted. */
export function AcceptFromPlace({ hold, lot, name, onDone }: Props) {
  return (
    <AcceptAfterAll
      name={name}
      title={`Accept ${name}, which was at a place on hold?`}
      onDone={onDone}
      ready
      draft={(covers, why) => ({ kind: 'food-at-place-accepted', payload: { hold, lot, covers }, words: { why } })}
    >
      <p>
        By the records it, or something in it, was there while the place was on hold. Where it was not there, correct that record instead.
        What was made of it stays on hold unless you say that it is covered. Who decides must be competent to; in doubt ask your food-safety
        authority first.
      </p>
    </AcceptAfterAll>
  );
}
