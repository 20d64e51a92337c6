import type { TraceView } from '@bakehouse/contracts';
import type { Shape, Tone } from '../../../ui';
import { amountText } from '../../../shared/trace/words';
import type { EndLine } from './model';

/** A line of the table, and of the picture: where some of it went, or what went in. */
export interface EndRow extends EndLine {
  readonly what: string;
  readonly detail: string | null;
  readonly amount: string;
  /** The lots by which it went there. */
  readonly lots: readonly { readonly id: string; readonly text: string }[];
  readonly sure: 'certain' | 'possible' | 'not known';
  readonly told: { readonly shape: Shape; readonly tone: Tone; readonly text: string } | null;
}

export const sureText = (certain: boolean): 'certain' | 'possible' => (certain ? 'certain' : 'possible');

/** What the trace gives, added up: pieces and masses each for themselves, and that some was not counted. */
export function amountsText(all: readonly { readonly pieces: number | null; readonly mg: number | null }[]): string {
  const pieces = all.reduce((n, e) => n + (e.pieces ?? 0), 0);
  const mg = all.reduce((n, e) => n + (e.pieces === null ? (e.mg ?? 0) : 0), 0);
  const unknown = all.some((e) => e.pieces === null && e.mg === null);
  const said = [...(pieces > 0 ? [amountText(pieces, 'pieces')] : []), ...(mg > 0 ? [amountText(mg, 'mg')] : [])].join(' and ');
  if (said === '') return 'amount not known';
  return unknown ? `${said} and more, not counted` : said;
}

/** What people call a lot, as short as it can be said: its code, or its name. */
export function shortNames(lots: TraceView['lots']): (lot: string) => string {
  const names = new Map(lots.map((l) => [l.id, l.code ?? l.name]));
  return (lot) => names.get(lot) ?? 'another lot';
}
