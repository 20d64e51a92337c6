import type { LoadView, Mouth, Whereabouts } from '@bakehouse/views';
import type { CSSProperties } from 'react';
import { Link } from 'wouter';
import { OnHold } from '../../../shared/concerns';
import { whole } from '../../../shared/format';
import { paths } from '../../../shared/night/paths';
import { useNow } from '../../../shared/tablet-context';
import { useMayGo } from '../../../ui';
import { Lasts, shareOf } from './left';

/** The fronts of this house's ovens, deck by deck in their order, with what is in each and how long it has left. */
export function Ovens({ where: { ovens } }: { readonly where: Whereabouts }) {
  if (ovens.length === 0) return <p className="nothing">No oven is set up for this site yet: the office does, under Catalogue.</p>;
  return ovens.map((o) => (
    <div key={o.oven} className="oven" role="group" aria-label={o.name}>
      {o.mouths.map((m) =>
        m.loads.length === 0 ? <Empty key={m.place ?? o.oven} m={m} /> : m.loads.map((l) => <Full key={l.id} l={l} m={m} />),
      )}
    </div>
  ));
}

const Empty = ({ m }: { readonly m: Mouth }) =>
  useMayGo(paths.loadNew) ? (
    <Link href={paths.loadNew} className="mouth empty">
      <h3>{m.name}</h3>
      <span className="mouth-where">empty: load it</span>
    </Link>
  ) : (
    <div className="mouth empty">
      <h3>{m.name}</h3>
      <span className="mouth-where">empty</span>
    </div>
  );

function Full({ l, m }: { readonly l: LoadView; readonly m: Mouth }) {
  const now = useNow(1_000);
  if (!l.now.in) return null;
  const { since, due } = l.now;
  const over = due !== null && due < now;
  const held = l.lines.some((line) => line.onHold);
  const style: CSSProperties & Record<'--left', string> = { '--left': `${Math.round((1 - shareOf(since, due, now)) * 100)}%` };
  return (
    <Link href={paths.load(l.id)} className={`mouth ${over ? 'over' : ''}`} style={style}>
      <h3>{l.lines.map((line) => `${line.name} × ${whole(line.pieces)}`).join(', ')}</h3>
      <span className="mouth-where">
        {m.name}
        {l.celsius === null ? null : (
          <>
            <br />
            {l.celsius} °C
          </>
        )}
        {held ? <OnHold /> : null}
      </span>
      <span className="left">
        <Lasts since={since} due={due} now={now} />
        {due === null ? <span> in</span> : null}
      </span>
    </Link>
  );
}
