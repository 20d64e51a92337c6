import { aboutToGoIn, againstRule, putInto, reworkText, ruledMake, surelyGone, type PayloadFor, type Row } from '@bakehouse/records';
import type { Night } from '../../shared/night/use-night';

type WeighedLine = PayloadFor<'weighed-in'>['lines'][number];

/**
 * What would be against the rule of its formula once these lines are in a make, in words, beyond what already is. By what this tablet holds: how often something was put
 * back before it may not know, and the service says it once the record is there.
 */
export function reworkAgainst({ lookup: { state }, now }: Night, make: string, lines: readonly WeighedLine[]): string[] {
  const found = ruledMake(state, make);
  if (!found || lines.length === 0) return [];
  const amounts = lines.flatMap((l) => {
    const mg = l.quantity?.unit === 'g' ? Math.round(Number(l.quantity.figure) * 1000) : null;
    const name = state.find('specification', 'material', l.material)[0]?.name ?? '';
    return [l.lot, ...(l.orLots ?? [])].map((lot) => ({ mg, pieces: null, ...(lot === null ? { name } : {}) }));
  });
  const put = aboutToGoIn(state, lines, { root: make, at: now }, amounts);
  const said = (more: typeof put): string[] =>
    againstRule(state, { ...found, at: null }, [...putInto(state, make), ...more]).map(reworkText);
  const before = new Set(said([]));
  return said(put).filter((text) => !before.has(text));
}

/** Lots of what may be put back that are made here and may still be there, the newest first. */
export const lotsToPutBack = ({ lookup: { state, at } }: Night, make: Row<'make'>, material: string): Row<'lot'>[] =>
  state
    .find('lot', 'material', material)
    .filter((l) => l.id !== make.id && l.type !== 'received' && l.type !== 'placeholder' && l.type !== 'withdrawn' && l.type !== 'run')
    .filter((l) => !surelyGone(state, l.id, at))
    .sort((a, b) => (a.at < b.at ? 1 : -1))
    .slice(0, 6);
