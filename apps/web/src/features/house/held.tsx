import type { OpenThings } from '@bakehouse/contracts';
import { Link } from 'wouter';
import { Concerns } from '../../shared/concerns';
import { office } from '../../shared/office-paths';
import { Shelves } from '../../shared/shelves';
import { WayOut } from '../../shared/way-out';

type HeldLot = OpenThings['held'][number];

interface Props {
  readonly h: HeldLot;
  readonly onDone: () => void;
}

/** A lot on hold: what speaks against it, and for each of that the way to end it. */
export function Held({ h, onDone }: Props) {
  return (
    <li className="row">
      <span className="row-main">
        <Link href={office.lot(h.lot)}>
          <strong>{h.name}</strong>
        </Link>
        {h.code === null ? '' : `, lot ${h.code}`}
      </span>
      <Shelves shelves={h.shelves} off />
      <Concerns concerns={h.concerns} lot={h.lot} />
      <div className="buttons">
        {h.concerns.map((c) => (
          <WayOut key={c.id} concern={c} lot={h.lot} name={h.name} onDone={onDone} />
        ))}
      </div>
    </li>
  );
}
