import { allergensNewIn, openAt, specificationsFor, type AllergenSources, type Declared, type Row } from '@bakehouse/records';
import type { CounterOpening } from './counter-answers.js';

interface Opened {
  readonly specifications: readonly Row<'specification'>[];
  readonly from: string;
  readonly opened: readonly Row<'inUse'>[];
  readonly emptied: readonly Row<'emptied'>[];
}

const something = ({ fresh: { contains, mayContain } }: CounterOpening): boolean => contains.length + mayContain.length > 0;

/** Lots opened today that bring in what was not there before: what was open at that station until then, else what the material is said to be. */
export function openedToday({ specifications, from, opened, emptied }: Opened, sources: AllergenSources): CounterOpening[] {
  const declaredOf = (id: string | null): Declared[] => specifications.filter((s) => s.id === id);
  return opened
    .filter((o) => o.at >= from)
    .flatMap((o): CounterOpening[] => {
      const others = opened.filter((other) => other.id !== o.id && other.at < o.at);
      const before = openAt(others, emptied, o.at).filter((b) => b.station === o.station && b.material === o.material);
      const known = before.flatMap((b) => declaredOf(b.specification));
      const [own] = declaredOf(o.specification);
      if (!own) return [];
      return [
        {
          how: 'opened',
          lot: o.lot,
          at: o.at,
          fresh: allergensNewIn(own, known.length > 0 ? known : sources.specificationsOf(o.material)),
        },
      ];
    })
    .filter(something);
}

interface Accepted {
  readonly specifications: readonly Row<'specification'>[];
  readonly from: string;
  readonly now: string;
  readonly lots: readonly Row<'lot'>[];
}

/** Specifications accepted today that say more than those before them of lots that had come already. */
export function acceptedToday({ specifications, from, now, lots }: Accepted): CounterOpening[] {
  return lots
    .filter((lot) => lot.type === 'received' || lot.type === 'placeholder')
    .flatMap((lot) => {
      const its = specificationsFor(lot, specifications, now);
      return its.flatMap((s, i): CounterOpening[] => {
        if (s.since < from || s.since <= lot.at || i === 0) return [];
        return [{ how: 'specification', lot: lot.id, at: s.since, fresh: allergensNewIn(s, its.slice(0, i)) }];
      });
    })
    .filter(something);
}
