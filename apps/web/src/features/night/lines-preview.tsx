import type { Row } from '@bakehouse/records';
import { mass } from '../../shared/format';
import { linesFor } from '../../shared/night/lots';
import { useNight } from '../../shared/night/use-night';
import { LotCell, OpenTooLong } from './lot-cell';

/** What will go in, with the lots that are open now. */
export function LinesPreview({
  version,
  plannedMg,
  station,
  from,
}: {
  readonly version: Row<'formulaVersion'>;
  readonly plannedMg: number | null;
  readonly station: string | null;
  readonly from: string;
}) {
  const { lookup, view, now } = useNight();
  const tooLong = new Set(view.inUse.filter((u) => u.openTooLong).map((u) => u.lot));
  const lines = linesFor(lookup, { version, plannedMg, station, from, to: now });
  const nameOf = new Map(version.content.lines.map((l) => [l.material, l.name]));
  return (
    <table className="lines">
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col" className="amount">
            How much
          </th>
          <th scope="col">Open lot</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((l, i) => (
          <tr key={`${l.material} ${l.lot ?? ''} ${i}`}>
            <td>{nameOf.get(l.material)}</td>
            <td className="amount">{mass(l.mg)}</td>
            <td>
              {l.lot === null ? <span className="faint">nothing open</span> : <LotCell lot={l.lot} />}{' '}
              {l.lot !== null && tooLong.has(l.lot) ? <OpenTooLong /> : null}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
