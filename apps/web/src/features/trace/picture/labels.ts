import { mass, whole } from '../../../shared/format';
import { amountText, dayTime } from '../../../shared/trace/words';
import type { DrawnLot, Flows } from './model';

/** What stands beside a lot in the picture: its code or, where its column says what it is, its day; and all of it for who cannot see it. */
export function labelOf(
  l: DrawnLot,
  common: string | null,
  unit: Flows['unit'],
  zone: string,
): { readonly short: string; readonly all: string } {
  const held = l.held ? ', on hold' : '';
  if (l.folded > 0) {
    const more = `and ${whole(l.folded)} more${l.weight > 0 ? `, ${unit === 'mg' ? mass(Math.round(l.weight)) : amountText(Math.round(l.weight), 'pieces')}` : ''}`;
    return { short: more, all: `${more}${held}` };
  }
  const at = l.at === null ? '' : dayTime(l.at, zone);
  const name = `${l.name}${l.code === null ? '' : ` ${l.code}`}`;
  return { short: l.code ?? (common === null ? l.name : at), all: `${name}, ${at}${held}` };
}

/** The name that every lot of a column has, or null where they differ. */
export function commonNames({ lots }: Flows): ReadonlyMap<number, string | null> {
  const names = new Map<number, string | null>();
  for (const l of lots) {
    if (l.folded > 0) continue;
    const before = names.get(l.layer);
    names.set(l.layer, before === undefined || before === l.name ? l.name : null);
  }
  return names;
}
