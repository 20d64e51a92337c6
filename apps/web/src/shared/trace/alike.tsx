import type { TraceView } from '@bakehouse/contracts';
import { Link } from 'wouter';
import { whole } from '../format';
import { office } from '../office-paths';
import { Notice } from '../../ui';
import { dayTime } from './words';

export type AlikeLot = TraceView['alike'][number];

/** Which delivery it is: by code, supplier, day and site. */
export const alikeText = ({ name, code, supplierName, site, at }: AlikeLot, zone: string): string =>
  `${name}${code === null ? '' : `, lot ${code}`}${supplierName === null ? '' : ` from ${supplierName}`}, came ${dayTime(at, zone)}, ${site}`;

/** That others have the same lot code and are not part of what is shown: they may be the same lot of the supplier's. */
export function SameCode({ trace, zone, title }: { readonly trace: TraceView; readonly zone: string; readonly title: string }) {
  if (trace.alike.length + trace.alikeHidden === 0) return null;
  return (
    <Notice tone="bad" title={title}>
      <ul>
        {trace.alike.map((l) => (
          <li key={l.lot}>
            <Link href={office.lot(l.lot)}>{alikeText(l, zone)}</Link>
          </li>
        ))}
        {trace.alikeHidden === 0 ? null : (
          <li>{whole(trace.alikeHidden)} more at sites that you may not look at: ask somebody whose role covers every site.</li>
        )}
      </ul>
      <p>A hold or a case about one of them says nothing about the others.</p>
    </Notice>
  );
}
