import { quantityText } from '@bakehouse/kernel';
import { isOnHold, type LoadView, type MakeView, type Whereabouts } from '@bakehouse/views';
import { Link } from 'wouter';
import { OnHold } from '../../../shared/concerns';
import { mass, wallTime, whole } from '../../../shared/format';
import { paths, subjectPath } from '../../../shared/night/paths';
import type { Night } from '../../../shared/night/use-night';
import { readingDoubt } from '../../../shared/reading-doubt';
import { VerdictMark } from '../../../ui';
import { MoreLoadedWord } from '../more-loaded';
import { judgedValue } from '../../../ui/verdict-text';

/** Mixes that are made up or ended and loads that are out: one line until somebody looks for them. */
export function Finished({ where: { done }, night }: { readonly where: Whereabouts; readonly night: Night }) {
  const out = night.view.loads.filter((l) => !l.now.in);
  if (done.length + out.length === 0) return null;
  return (
    <details className="finished">
      <summary>
        Finished: {whole(done.length)} {done.length === 1 ? 'mix' : 'mixes'}, {whole(out.length)} {out.length === 1 ? 'load' : 'loads'}
      </summary>
      <ul className="rows">
        {done.map((m) => (
          <Mix key={m.id} m={m} night={night} />
        ))}
        {out.map((l) => (
          <Load key={l.id} l={l} night={night} />
        ))}
      </ul>
    </details>
  );
}

function Mix({ m, night }: { readonly m: MakeView; readonly night: Night }) {
  return (
    <li>
      <Link href={paths.make(m.id)} className="row">
        <span className="row-main">
          <strong>{m.name}</strong> {m.divided ? 'made up' : 'finished'}, {mass(m.inMg === 0 ? m.plannedMg : m.inMg)}
        </span>
        {isOnHold(m) ? <OnHold /> : null}
        <span className="row-side">begun {wallTime(m.at, night.zone)}</span>
      </Link>
      <ul className="sub">
        {m.runs.map((r) => (
          <li key={r.id}>
            <Link href={subjectPath('run', r.id)}>
              {r.name}: {whole(Math.min(r.loaded, r.pieces))} of {whole(r.pieces)} baked
            </Link>
            {isOnHold(r) ? <OnHold /> : null}
            {r.moreLoaded > 0 ? <MoreLoadedWord run={r} /> : null}
          </li>
        ))}
      </ul>
    </li>
  );
}

function Load({ l, night }: { readonly l: LoadView; readonly night: Night }) {
  const last = l.readings.at(-1);
  return (
    <li>
      <Link href={paths.load(l.id)} className="row">
        <span className="row-main">
          <strong>{l.lines.map((line) => `${line.name} × ${whole(line.pieces)}`).join(', ')}</strong> {l.deckName ?? l.ovenName}
        </span>
        {l.lines.some((line) => line.onHold) ? <OnHold /> : null}
        {last ? (
          <span className="card-state">
            <VerdictMark
              verdict={last.verdict}
              of={last.class}
              value={judgedValue(last.figure, last.unit, last.judgedBy)}
              doubt={readingDoubt(last.doubt, night.zone)}
            />
            {last.figure === null ? '' : ` ${quantityText(last.figure, last.unit)}`}
          </span>
        ) : null}
        <span className="row-side">{l.now.in ? '' : `out ${wallTime(l.now.outAt, night.zone)}`}</span>
      </Link>
    </li>
  );
}
