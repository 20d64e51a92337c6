import { derivedId } from '@bakehouse/kernel';
import { namesFood, type Judged, type NewEntryOf } from '@bakehouse/records';
import { doubtOn } from '@bakehouse/views';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import { limitText, wallTime } from '../../shared/format';
import { Button, LinkButton, Mark, markOf } from '../../ui';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';
import { readingDoubt } from '../../shared/reading-doubt';
import type { ReadingOf } from './use-reading';
import { useAct } from '../../shared/use-act';
import { verdictText } from '../../ui/verdict-text';

interface Props {
  readonly of: ReadingOf;
  readonly found: Judged;
  readonly entry: string;
  readonly figure: string;
  readonly onAgain: () => void;
}

/** The verdict, as large as it matters, and what can be done about it with one tap. */
export function ReadingResult({ of, found, entry, figure, onAgain }: Props) {
  const { lookup, zone } = useNight();
  const { verdict, deviation, holds } = found;
  const row = lookup.state.get('reading', entry);
  const doubt = row ? readingDoubt(doubtOn(lookup, row), zone) : null;
  const shown = doubt === null ? verdict : 'unsure';
  const { shape, tone } = markOf(shown, of.point.content.class);
  const read = verdictText(verdict, { milli: found.milli, limit: found.asked?.limit ?? null });
  return (
    <section className={`verdict ${tone}`} role="status" aria-live="assertive">
      <p className="verdict-word">
        <Mark shape={shape} tone={tone} />
        <span>{doubt ?? read}</span>
      </p>
      <p className="verdict-figure">
        {figure} <small>asked: {limitText(of.point.content.limit)}</small>
      </p>
      {doubt === null ? null : (
        <p>
          It shows “{read}”, which settles nothing. Read again with a thermometer that passed its check; until then food that this is asked
          for is not released by rule.
        </p>
      )}
      {verdict === 'outside' && holds ? (
        <p>On hold: nothing of it leaves before this is answered. {of.point.content.correctiveAction}</p>
      ) : null}
      {verdict === 'outside' && !holds && deviation !== 'none' ? <NothingOnHold of={of} /> : null}
      {verdict === 'outside' && of.subjectType === 'load' ? (
        <BackIn load={of.subject} deviation={deviation === 'none' ? null : derivedId(entry, 'deviation')} />
      ) : null}
      <div className="buttons">
        {shown === 'unsure' || verdict === 'not-believable' ? (
          <Button look="go" onClick={onAgain}>
            Read again
          </Button>
        ) : null}
        {verdict === 'outside' && deviation !== 'none' ? (
          <LinkButton to={paths.deviation(derivedId(entry, 'deviation'))}>Corrective action</LinkButton>
        ) : null}
        <LinkButton to={paths.today} look={shown === 'within' || shown === 'no-limit' ? 'go' : 'plain'}>
          Today’s bake
        </LinkButton>
      </div>
    </section>
  );
}

/** A place says nothing of what stood there: what the plan wants held is put on hold by its name. */
function NothingOnHold({ of }: Pick<Props, 'of'>) {
  const asked = of.point.content.ifOutside === 'hold' && !namesFood(of.subjectType);
  return (
    <p>
      Noted; nothing is on hold.{' '}
      {asked ? (
        <>
          Decide now about the food that was there, and put it on hold by its name: <Link href={paths.stock}>the stock</Link>.{' '}
          {of.point.content.correctiveAction}
        </>
      ) : null}
    </p>
  );
}

/** An ordinary answer to a low core, in one tap, and the record says that this is what was done about it: the load goes back in, or stays in where it is not due yet. */
export function BackIn({ load: id, deviation }: { readonly load: string; readonly deviation: string | null }) {
  const { view, now } = useNight();
  const load = view.loads.find((l) => l.id === id);
  const due = load?.now.in === true ? load.now.due : null;
  return due !== null && due > now ? <LeaveIn load={id} due={due} deviation={deviation} /> : <PutBack load={id} deviation={deviation} />;
}

interface AnswerProps {
  readonly load: string;
  readonly deviation: string | null;
}

/** It was read while it bakes: its time runs on as it is. */
function LeaveIn({ load, due, deviation }: AnswerProps & { readonly due: string }) {
  const { zone } = useNight();
  const [, go] = useLocation();
  const { act, busy, trouble } = useAct();
  const leave = async (): Promise<void> => {
    const payload = { deviation: deviation ?? '', type: 'other' as const };
    const done =
      deviation === null ||
      (await act({ kind: 'corrective-action-taken', payload, words: { action: `left in the oven until ${wallTime(due, zone)}` } }));
    if (done) go(paths.load(load));
  };
  return (
    <>
      {trouble}
      <div className="buttons">
        <Button look="go" disabled={busy} onClick={() => void leave()}>
          {`Leave it in until ${wallTime(due, zone)}`}
        </Button>
      </div>
    </>
  );
}

function PutBack({ load, deviation }: AnswerProps) {
  const [, go] = useLocation();
  const { act, busy, trouble } = useAct();
  const [more, setMore] = useState(false);
  const back = async (minutes: number): Promise<void> => {
    const step: NewEntryOf<'load-stepped'> = { kind: 'load-stepped', payload: { load, step: 'back-in', minutes } };
    const done = await (deviation === null
      ? act(step)
      : act({ kind: 'corrective-action-taken', payload: { deviation, type: 'back-in-the-oven' } }, [step]));
    if (done) go(paths.load(load));
  };
  return (
    <>
      {trouble}
      <div className="buttons">
        <Button look="go" disabled={busy} onClick={() => void back(5)}>
          Back in the oven, 5 min
        </Button>
        {more ? (
          [3, 8, 10, 15].map((m) => <Button key={m} disabled={busy} onClick={() => void back(m)}>{`${m} min`}</Button>)
        ) : (
          <Button look="quiet" onClick={() => setMore(true)}>
            Other minutes
          </Button>
        )}
      </div>
    </>
  );
}
