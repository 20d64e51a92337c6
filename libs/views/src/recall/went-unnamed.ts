import type { TraceView } from '@bakehouse/contracts';
import { countText, grouped } from '@bakehouse/kernel';

type Line = TraceView['counter'][number];

/** How much went one way to people whom nobody can name. */
export interface WentUnnamed {
  readonly way: string;
  readonly certain: boolean;
  readonly pieces: number;
  readonly someNotKnown: boolean;
  /** Put out on a counter, not recorded as sold or taken off; null where nobody knows how many, 0 where there are none. */
  readonly onSale: number | null;
}

/** The list of what went to nobody in particular, summed for every screen and paper that has no room for its lines. */
export function wentUnnamed(lines: readonly Line[]): WentUnnamed[] {
  const groups = grouped(lines, (l) => `${l.way} ${l.certain ? 0 : 1}`);
  return [...groups].sort(([a], [b]) => (a < b ? -1 : 1)).flatMap(([, of]) => of.slice(0, 1).map((first) => summed(first, of)));
}

function summed({ way, certain }: Line, of: readonly Line[]): WentUnnamed {
  const open = of.filter((l) => l.until === null);
  const left = open.map((l) => (l.pieces === null || l.sold === null ? null : Math.max(0, l.pieces - l.sold)));
  return {
    way,
    certain,
    pieces: of.reduce((n, l) => n + (l.sold ?? 0), 0),
    someNotKnown: of.some((l) => l.sold === null),
    onSale: left.includes(null) ? null : left.reduce<number>((n, l) => n + (l ?? 0), 0),
  };
}

/** `252 pieces, some amounts not known; 5 pieces put out and not recorded as taken off` */
export function wentUnnamedText({ pieces, someNotKnown, onSale }: WentUnnamed): string {
  const gone =
    pieces === 0 && someNotKnown ? 'amount not known' : `${countText(pieces, 'piece')}${someNotKnown ? ', some amounts not known' : ''}`;
  if (onSale === 0) return gone;
  const out = `${onSale === null ? 'some' : countText(onSale, 'piece')} put out and not recorded as taken off`;
  return pieces === 0 && !someNotKnown ? out : `${gone}; ${out}`;
}
