import type { OrderOfDay, ProductOnHand } from '@bakehouse/views';

/** What somebody said of a product, where it is another than the order says. */
export interface Taken {
  readonly pieces: string;
  /** One lot where somebody says which; else any of what is there. */
  readonly lot: string | null;
}
export interface RoundLine extends Taken {
  readonly product: string;
  readonly name: string;
  /** What the order says; null where it is not in the order, or nobody said how many went. */
  readonly ordered: number | null;
  readonly inOrder: boolean;
  /** What there is of it; undefined where nothing that was counted out is left. */
  readonly onHand: ProductOnHand | undefined;
}

/** The order, with what somebody changed of it, and what was added. */
export function roundLines(
  order: OrderOfDay | null,
  changed: ReadonlyMap<string, Taken>,
  products: readonly ProductOnHand[],
): readonly RoundLine[] {
  const onHand = new Map(products.map((p) => [p.product, p]));
  const ordered = (order?.lines ?? []).map(({ product, name, pieces }): RoundLine => {
    const there = onHand.get(product);
    const none = there === undefined || there.left === 0;
    const asOrdered = { pieces: pieces === null || none ? '' : String(pieces), lot: null };
    return { product, name, ordered: pieces, inOrder: true, onHand: there, ...(changed.get(product) ?? asOrdered) };
  });
  const known = new Set(ordered.map((l) => l.product));
  const added = [...changed].flatMap(([product, taken]): RoundLine[] => {
    const there = onHand.get(product);
    const left = known.has(product) || taken.pieces === '';
    return left ? [] : [{ product, name: there?.name ?? '', ordered: null, inOrder: false, onHand: there, ...taken }];
  });
  return [...ordered.sort((a, b) => a.name.localeCompare(b.name)), ...added];
}

/** How many pieces of a line go; nothing goes of what is not there. */
export const goes = (l: RoundLine): number => (l.onHand === undefined ? 0 : Number(l.pieces));

/** Whether another number goes than the order says. */
export const isChanged = (l: RoundLine): boolean => (l.inOrder ? goes(l) !== (l.ordered ?? 0) : goes(l) > 0);

/** One more or one fewer, and never fewer than none. */
export const stepped = (pieces: string, by: 1 | -1): string => String(Math.max(0, Number(pieces) + by));
