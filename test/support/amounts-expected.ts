import { derivedId } from '@bakehouse/kernel';
import type { Fact } from '../simulation/nights/drawn.js';
import { inForce } from './used-by-record.js';

type Entry = Fact['entry'];
type Observed = { readonly figure: string; readonly unit: string } | null;
interface Amount {
  readonly at: string;
  readonly id: string;
  readonly mg: number | null;
  readonly pieces: number | null;
}
interface Account {
  readonly unit: 'mg' | 'pieces';
  readonly first: number | null;
  /** When a batch was counted out; null of what was delivered. A count from before that says nothing of it. */
  readonly counted: string | null;
  readonly counts: Amount[];
  readonly out: Amount[];
  /** What went as this or as another. */
  readonly perhaps: Amount[];
}

/** How much there is of a lot, as far as the records say: so much, and so much less where what went as one of several went of this; null where nobody knows. */
export interface Expected {
  readonly most: number | null;
  readonly least: number | null;
}

/** How much should be left of what came in and of what was counted out, by what the test recorded alone. */
export class AmountsExpected {
  private readonly accounts = new Map<string, Account>();
  private readonly sameAs = new Map<string, Entry>();

  constructor(facts: readonly Fact[]) {
    const entries = inForce(facts.map((f) => f.entry));
    for (const e of entries) this.begins(e);
    for (const e of entries)
      if (e.kind === 'lot-identified' && e.payload.same !== null) {
        const known = this.sameAs.get(e.payload.lot);
        if (!known || `${known.at} ${known.id}` < `${e.at} ${e.id}`) this.sameAs.set(e.payload.lot, e);
      }
    for (const e of entries) this.moves(e);
  }

  /** By the papers that it came with. */
  cameAs(lot: string): number | null | undefined {
    return this.accounts.get(lot)?.first;
  }

  of(lot: string): Expected | undefined {
    const account = this.accounts.get(lot);
    if (!account) return undefined;
    const { unit, first, counts, out, perhaps, counted } = account;
    const [count] = counts
      .filter((c) => counted === null || c.at >= counted)
      .sort((a, b) => (`${a.at} ${a.id}` < `${b.at} ${b.id}` ? 1 : -1));
    const since = (all: readonly Amount[]): (number | null)[] => all.flatMap((a) => (count && a.at <= count.at ? [] : [a[unit]]));
    const start = count ? count[unit] : first;
    const most = since(out).reduce<number | null>((left, a) => (left === null || a === null ? null : left - a), start);
    const less = since(perhaps).reduce<number>((sum, a) => sum + (a ?? Infinity), 0);
    return { most, least: most === null ? null : most - less };
  }

  private begins(e: Entry): void {
    const begin = (lot: string, unit: Account['unit'], first: number | null, counted: string | null): void => {
      this.accounts.set(lot, { unit, first, counted, counts: [], out: [], perhaps: [] });
    };
    if (e.kind === 'delivery-received') for (const line of e.payload.lines) begin(line.lot, 'mg', mgOf(line.quantity), null);
    if (e.kind === 'batch-counted-out') begin(e.id, 'pieces', e.payload.pieces, e.at);
  }

  private moves(e: Entry): void {
    if (e.kind === 'lot-counted') this.accounts.get(e.payload.lot)?.counts.push(amountOf(e, e.payload.quantity));
    if (e.kind === 'weighed-in') this.takes(e, e.payload.lines);
    if (e.kind === 'vessel-topped-up') this.takes(e, e.payload.added);
    if (e.kind === 'sent-out') for (const { lots, quantity } of e.payload.lines) this.goes(lots, amountOf(e, quantity));
  }

  private takes(
    e: Entry,
    lines: readonly { readonly lot: string | null; readonly orLots?: readonly string[] | undefined; readonly quantity: Observed }[],
  ): void {
    const placeholder = (i: number): string => {
      const before = lines.slice(0, i).reduce((sum, l) => sum + 1 + (l.orLots?.length ?? 0), 0);
      return derivedId(e.id, `placeholder ${before}`);
    };
    for (const [i, { lot, orLots = [], quantity }] of lines.entries()) this.goes([lot ?? placeholder(i), ...orLots], amountOf(e, quantity));
  }

  private goes(lots: readonly string[], amount: Amount): void {
    for (const lot of lots) this.accounts.get(this.really(lot))?.[lots.length > 1 ? 'perhaps' : 'out'].push(amount);
  }

  /** The lot that one turned out to be. */
  private really(lot: string): string {
    const named = this.sameAs.get(lot);
    return named?.kind === 'lot-identified' && named.payload.same !== null ? this.really(named.payload.same) : lot;
  }
}

const amountOf = ({ at, id }: Entry, quantity: Observed): Amount => ({
  at,
  id,
  mg: mgOf(quantity),
  pieces: quantity?.unit === 'piece' ? Number(quantity.figure) : null,
});
const perUnit: Readonly<Record<string, number>> = { g: 1_000, kg: 1_000_000 };
function mgOf(quantity: Observed): number | null {
  const each = quantity === null ? undefined : perUnit[quantity.unit];
  return quantity === null || each === undefined ? null : Math.round(Number(quantity.figure) * each);
}
