import type { TraceView } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { Link } from 'wouter';
import { office } from '../../shared/office-paths';

type Lot = TraceView['lots'][number];

export const lotOf = (trace: Pick<TraceView, 'lots'>, id: string): Lot | undefined => trace.lots.find((l) => l.id === id);

export const lotTitle = (lot: Lot | undefined): string =>
  lot === undefined ? 'A lot' : `${lot.name}${lot.code === null ? ', no code' : `, lot ${lot.code}`}`;

/** Its name with its code beside it, large. */
export function LotHeading({ lot }: { readonly lot: Lot | undefined }) {
  if (lot === undefined || lot.code === null) return lotTitle(lot);
  return (
    <>
      {lot.name} <span className="code">{lot.code}</span>
    </>
  );
}

export const lotAbove = (lot: Lot | undefined): string =>
  lot === undefined
    ? ''
    : `${lot.type === 'received' ? 'Received lot' : lot.type === 'placeholder' ? 'Goods received, lot not identified' : lot.type === 'made' ? 'Made here' : `Made here: ${phrase(`lot.${lot.type}` as PhraseKey)}`}, ${lot.site}`;

/** Both ways that a lot is traced. */
export function Ways({ lot, forward }: { readonly lot: string; readonly forward: boolean }) {
  return (
    <nav className="ways" aria-label="Which way it is traced">
      <Link href={office.lot(lot)} aria-current={forward ? 'page' : undefined}>
        Trace forward
      </Link>
      <Link href={office.lotFrom(lot)} aria-current={forward ? undefined : 'page'}>
        Trace back
      </Link>
    </nav>
  );
}
