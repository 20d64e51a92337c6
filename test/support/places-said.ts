import * as contracts from '@bakehouse/contracts';
import { allergen } from '@bakehouse/kernel';
import { kinds } from '@bakehouse/records';
import * as z from 'zod';

const node = z.looseObject({
  properties: z.record(z.string(), z.unknown()).optional(),
  items: z.unknown().optional(),
  anyOf: z.array(z.unknown()).optional(),
  allOf: z.array(z.unknown()).optional(),
  propertyNames: z.unknown().optional(),
  additionalProperties: z.unknown().optional(),
  enum: z.array(z.unknown()).optional(),
  type: z.unknown().optional(),
});
type Node = z.infer<typeof node>;

const isAllergen = (of: unknown): boolean => {
  const read = node.safeParse(of);
  return read.success && allergen.options.every((a) => read.data.enum?.includes(a));
};
/** What a lot's amount is called wherever one is said. */
const amountNames = /^(mg|pieces|amount|leftMg|leftPieces|heldMinMg|heldMaxMg|inStock|onHand|left)$/;
const isInteger = (of: unknown): boolean => {
  const read = node.safeParse(of);
  return read.success && (read.data.type === 'integer' || (read.data.anyOf ?? []).some(isInteger));
};

interface Found {
  readonly allergens: Set<string>;
  readonly amounts: Set<string>;
}

function walk(of: unknown, path: string, found: Found): void {
  const read = node.safeParse(of);
  if (!read.success) return;
  const schema: Node = read.data;
  if (isAllergen(schema) || isAllergen(schema.propertyNames)) found.allergens.add(path);
  for (const [key, inner] of Object.entries(schema.properties ?? {})) {
    if (amountNames.test(key) && isInteger(inner)) found.amounts.add(`${path}.${key}`);
    walk(inner, `${path}.${key}`, found);
  }
  for (const inner of [schema.items, schema.additionalProperties, ...(schema.anyOf ?? []), ...(schema.allOf ?? [])])
    walk(inner, path, found);
}

/** Where a contract or the outcome of a record says what is in something, or how much of it there is: by its name and the way to it. */
export function placesSaid(): { readonly allergens: string[]; readonly amounts: string[] } {
  const found: Found = { allergens: new Set(), amounts: new Set() };
  const look = (schema: z.ZodType, name: string): void => {
    const whole = z
      .looseObject({ $defs: z.record(z.string(), z.unknown()).optional() })
      .parse(z.toJSONSchema(schema, { io: 'output', unrepresentable: 'any' }));
    walk(whole, name, found);
    for (const [id, inner] of Object.entries(whole.$defs ?? {})) if (!id.startsWith('__')) walk(inner, id, found);
  };
  for (const [name, schema] of Object.entries(contracts))
    if (schema instanceof z.ZodType) look(schema, z.globalRegistry.get(schema)?.id ?? name);
  for (const kind of kinds) look(kind.outcome, `outcome of ${kind.name}`);
  return { allergens: sortedOf(found.allergens), amounts: sortedOf(found.amounts) };
}
const sortedOf = (of: ReadonlySet<string>): string[] => [...of].sort();

/** Where an allergen is said, and which test holds it against what was used or against the formulas. */
export const allergensSaidAt: Readonly<Record<string, string>> = {
  ...saidBy('one-truth: isTheCounters', ['CounterProduct.answers', 'CounterProduct.fromBowl', 'CounterProduct.notOnTicket']),
  ...saidBy('api/counter: what was opened or accepted today', ['Counter.opened.contains', 'Counter.opened.mayContain']),
  ...saidBy('one-truth: isTheOffices', [
    ...both('Formula.allergens'),
    ...both('Formula.products.allergens'),
    ...both('MaterialList.allergens'),
    ...both('allergenAnswer'),
  ]),
  ...saidBy('api/formula-drafts: a text that is not approved, by formula', both('FormulaDraft.allergens')),
  ...saidBy('what somebody accepted, as it was typed', [...both('MaterialList.specifications'), ...both('specificationView')]),
  ...saidBy('stock/new-allergens: what one specification says and another did not', [
    ...both('outcome of lot-opened.newAllergens'),
    ...both('outcome of one-off-changed.newAllergens'),
  ]),
};

/** Where it is said how much there is left of a lot. Other amounts are what one record said, once, or what went of a lot. */
export const amountsLeftAt: Readonly<Record<string, string>> = {
  ...saidBy('one-truth: areTheAmounts', ['Trace.onHand.amount']),
  ...saidBy('api/trace-sums: balances of the suspects and of what does not add up', ['Balance.onHand.amount', 'Balance.counted.amount']),
  ...saidBy('api/own-shop: what stands in the shop and on the counter', [
    'Shelves.inShop.amount',
    'Shelves.onCounter.pieces',
    'CounterWindow.pieces',
    'Counter.held.pieces',
    'Trace.onHand.inStore.amount',
  ]),
  ...saidBy('api/divided-into: what is left of each part', ['DividedInto.parts.left.amount']),
  ...saidBy('api/stock: what came less what was taken', ['StockLeft.lots.leftMg']),
  ...saidBy('standing/decided-part: each piece once, however many decisions', ['DecidedPart.left.mg', 'DecidedPart.left.pieces']),
  ...saidBy('graph/shares: bounds on the suspect part', ['TracedLot.heldMinMg', 'TracedLot.heldMaxMg']),
};

/** Where it is said what one record said of an amount. */
const amountsOfRecords =
  /^(outcome of |Formula|Inspected|LotEnd\.|ContactListEntry\.|Recall\.decisions\.|DecidedPart\.decided\.|FoundLot\.|Deliveries\.lines\.|goodsLine\.|TracedLot\.(by\.)?(mg|pieces)$|DividedInto\.parts\.(mg|pieces)$|Balance\.likelyCauses\.)/;
export const isLeft = (place: string): boolean => !amountsOfRecords.test(place);

function both(at: string): string[] {
  return [`${at}.contains`, `${at}.mayContain`];
}
function saidBy(by: string, places: readonly string[]): Record<string, string> {
  return Object.fromEntries(places.map((place) => [place, by]));
}
