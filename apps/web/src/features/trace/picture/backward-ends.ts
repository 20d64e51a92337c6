import type { TraceView } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { dayTime, ofLot } from '../../../shared/trace/words';
import { sureText, type EndRow } from './end-row';
import { deliveredOf, type Delivered } from './delivered';
import { drawnAs, type Weights } from './lots-drawn';

/** A line of what went in, with the delivery that it came with. */
export interface IntoRow extends EndRow {
  readonly lot: string;
  readonly code: string | null;
  readonly supplier: string | null;
  readonly note: string | null;
  readonly dates: string | null;
  readonly received: string;
}

/** What nothing further went into: what was received, and what nobody knows more of. */
export function backwardEnds(
  { lots, suspects }: TraceView,
  weights: Weights,
  delivered: ReadonlyMap<string, Delivered>,
  zone: string,
): IntoRow[] {
  const as = drawnAs(lots);
  const inner = new Set(lots.flatMap((l) => (l.by ? [as(l.by.from)] : [])));
  const ends = lots.filter((l) => !inner.has(l.id) && as(l.id) === l.id && !suspects.includes(l.id));
  const place = orderOf(lots);
  return [...ends]
    .sort(
      (a, b) =>
        (place.get(a.by?.from ?? '') ?? 0) - (place.get(b.by?.from ?? '') ?? 0) ||
        (a.at < b.at ? -1 : a.at > b.at ? 1 : a.id < b.id ? -1 : 1),
    )
    .map((l): IntoRow => {
      const came = delivered.get(l.id);
      const held = came?.held ?? false;
      const look = held ? 'gate' : sureText(l.certain);
      return {
        id: `into ${l.id}`,
        lot: l.id,
        what: l.name,
        detail: l.type === 'received' ? null : phrase(`lot.${l.type}` as PhraseKey), // every type of lot has words
        code: l.code,
        ...deliveredOf(came),
        dates: came?.date ?? null,
        received: dayTime(l.at, zone),
        amount:
          l.by === null || (l.by.mg === null && l.by.pieces === null)
            ? 'not weighed'
            : ofLot(l.by.mg === null ? l.by : { pieces: null, mg: l.by.mg }),
        lots: [{ id: l.id, text: l.code ?? l.name }],
        look,
        sure: sureText(l.certain),
        told: held ? { shape: 'gate', tone: 'bad', text: 'on hold' } : null,
        from: l.by === null ? [] : [{ lot: l.by.from, weight: weights.of(l.id), look }],
      };
    });
}

/** The lots by how far they are from the first, then by when they were made. */
function orderOf(lots: TraceView['lots']): ReadonlyMap<string, number> {
  const inOrder = [...lots].sort((a, b) => a.steps - b.steps || (a.at < b.at ? -1 : a.at > b.at ? 1 : a.id < b.id ? -1 : 1));
  return new Map(inOrder.map((l, i) => [l.id, i]));
}
