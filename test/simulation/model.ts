/** What happened to lots, as a simulation knows it: in grams, each once. A correction replaces its happening, a withdrawal takes it away. */
export type Happening =
  | { readonly type: 'delivered'; readonly lot: string; readonly grams: number; readonly at: string }
  | {
      readonly type: 'weighed-in';
      readonly make: string;
      readonly lines: readonly { readonly lot: string; readonly grams: number }[];
      readonly at: string;
    }
  | { readonly type: 'sent-out'; readonly lot: string; readonly grams: number; readonly at: string }
  | {
      readonly type: 'returned';
      readonly lot: string;
      readonly grams: number;
      readonly disposition: 'on-hand' | 'waste';
      readonly at: string;
    }
  | { readonly type: 'counted'; readonly lot: string; readonly grams: number; readonly at: string };

export interface Balance {
  readonly received: number;
  readonly gone: number;
  readonly onHand: number;
  readonly counted: boolean;
}

/** The simplest bookkeeping there is: a list of happenings, summed up each time it is asked. Knows nothing of rows, outcomes or a database. */
export class Model {
  /** Every lot that ever was on record: a withdrawn delivery takes none away. */
  readonly known = new Set<string>();
  private readonly happenings = new Map<string, Happening | null>();

  set(root: string, happening: Happening): void {
    if (happening.type === 'delivered') this.known.add(happening.lot);
    this.happenings.set(root, happening);
  }
  withdraw(root: string): void {
    this.happenings.set(root, null);
  }
  of(root: string): Happening | null | undefined {
    return this.happenings.get(root);
  }
  get roots(): string[] {
    return [...this.happenings.keys()];
  }
  get lots(): string[] {
    return this.all.flatMap((h) => (h.type === 'delivered' ? [h.lot] : []));
  }

  /** Out of it, back onto the shelf, and what the last count leaves, each gram for gram. */
  balance(lot: string): Balance {
    const moves = this.all.flatMap((h) => this.movesOf(h, lot));
    const counts = this.entries.flatMap(([root, h]) => (h.type === 'counted' && h.lot === lot ? [{ root, ...h }] : []));
    const last = counts.sort((a, b) => (a.at === b.at ? (a.root < b.root ? -1 : 1) : a.at < b.at ? -1 : 1)).at(-1);
    const received = this.all.reduce((sum, h) => (h.type === 'delivered' && h.lot === lot ? h.grams : sum), 0);
    const sum = (some: typeof moves): number => some.reduce((total, m) => total + m.grams, 0);
    const onHand = last ? last.grams - sum(moves.filter((m) => m.at > last.at)) : received - sum(moves);
    return { received, gone: sum(moves), onHand, counted: last !== undefined };
  }

  private movesOf(h: Happening, lot: string): { grams: number; at: string }[] {
    switch (h.type) {
      case 'weighed-in':
        return h.lines.filter((l) => l.lot === lot).map((l) => ({ grams: l.grams, at: h.at }));
      case 'sent-out':
        return h.lot === lot ? [{ grams: h.grams, at: h.at }] : [];
      case 'returned':
        return h.lot === lot && h.disposition === 'on-hand' ? [{ grams: -h.grams, at: h.at }] : [];
      default:
        return [];
    }
  }

  private get entries(): [string, Happening][] {
    return [...this.happenings].flatMap(([root, h]) => (h ? [[root, h] as [string, Happening]] : []));
  }
  private get all(): Happening[] {
    return this.entries.map(([, h]) => h);
  }
}
