import { phrase } from '@bakehouse/records';
import type { TimerView } from '@bakehouse/views';
import type { CSSProperties } from 'react';
import { howLong } from '../../../shared/format';
import { useNow } from '../../../shared/tablet-context';

/** How long is left, in whole minutes, or how long it is over; and how far it has come, as a level that rises. */
export function Left({ timer }: { readonly timer: TimerView }) {
  const now = useNow(5_000);
  const { due, since, step } = timer;
  const over = due !== null && due < now;
  const style: CSSProperties & Record<'--risen', string> = { '--risen': `${Math.round(shareOf(since, due, now) * 100)}%` };
  return (
    <>
      {step === 'bake' ? null : <span className="level" style={style} aria-hidden="true" />}
      <p className={`left ${over ? 'over' : ''}`}>
        <Lasts since={since} due={due} now={now} />
        <span>{due === null ? ` in ${step === 'bake' ? 'the oven' : phrase(`stage.${step}`)}` : over ? ' overdue' : ''}</span>
      </p>
    </>
  );
}

/** What is left, +4 min where it is over, or since when where nobody planned it: 28 min with the figure large and its unit small, 1 h 05 as it is. */
export function Lasts({ since, due, now }: { readonly since: string; readonly due: string | null; readonly now: string }) {
  const text = due === null ? howLong(since, now) : due < now ? `+${howLong(due, now)}` : howLong(now, due);
  const [, figure] = /^(\+?\d+) min$/.exec(text) ?? [];
  return (
    <b>
      {figure ?? text}
      {figure === undefined ? null : <small> min</small>}
    </b>
  );
}

/** From nothing to all of the time that was planned; what nobody planned stays at nothing. */
export function shareOf(since: string, due: string | null, now: string): number {
  if (due === null) return 0;
  const [from, to, at] = [Date.parse(since), Date.parse(due), Date.parse(now)];
  return to <= from ? 1 : Math.min(1, Math.max(0, (at - from) / (to - from)));
}
