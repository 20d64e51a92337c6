import { allergenSources, formulaAllergens, productAllergens, type AllergenAnswer, type Row } from '@bakehouse/records';
import type { CounterView, HeldLot } from '@bakehouse/contracts';
import { usedOf, type Touched, type UsedFlow } from '@bakehouse/graph';
import { counterAnswers, type CounterProduct } from './counter-answers.js';
import { offeredThough } from './offered-though.js';
import { ticketOf } from './ticket.js';
import { acceptedToday, openedToday } from './news-of-today.js';
import { usedLots } from './used-lots.js';

export interface CounterMaterial {
  /** What materials are and how things are made here, every version. */
  readonly specifications: readonly Row<'specification'>[];
  readonly formulas: readonly Row<'formulaVersion'>[];
  readonly now: string;
  readonly site: string;
  readonly sites: readonly { readonly id: string; readonly name: string }[];
  /** What is on hold at this site. */
  readonly onHold: readonly HeldLot[];
  readonly from: string;
  readonly batches: readonly Row<'batch'>[];
  /** The makes that the batches are of. */
  readonly makes: readonly Pick<Row<'make'>, 'id' | 'formulaVersion'>[];
  readonly onCounter: ReadonlySet<string>;
  readonly lots: readonly Row<'lot'>[];
  readonly flows: readonly UsedFlow[];
  readonly oneOffs: readonly Row<'oneOff'>[];
  readonly touched: readonly Touched[];
  readonly opened: readonly Row<'inUse'>[];
  readonly emptied: readonly Row<'emptied'>[];
}

/** Today's products with their answers, and what brought in something new today. Pure. */
export function counterPart(m: CounterMaterial): Pick<CounterView, 'products' | 'opened' | 'held'> {
  const sources = allergenSources(m, m.now);
  const { lots, flows } = usedLots(m, sources);
  const news = [...openedToday(m, sources), ...acceptedToday(m)].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  const answered = counterAnswers(productsOf(m), usedOf(lots, flows, m.touched), news);
  const standing = new Set(m.batches.filter((b) => m.onCounter.has(b.id)).map((b) => b.product));
  const onHold = new Set(m.onHold.map((h) => h.lot));
  const productsOnHold = new Set(m.batches.filter((b) => onHold.has(b.id)).map((b) => b.product));
  return {
    held: offeredThough(m),
    products: answered.map(({ product, name, answers, fromBowl, notOnTicket, staleSince, checkedSince }) => ({
      product,
      name,
      onCounter: standing.has(product),
      onHold: productsOnHold.has(product),
      answers,
      fromBowl: [...fromBowl],
      notOnTicket: [...notOnTicket],
      staleSince,
      checkedSince,
    })),
    opened: [...new Map(news.map(({ at, how, fresh }) => [`${at} ${how}`, { at, how, ...fresh }])).values()],
  };
}

function productsOf(m: CounterMaterial): CounterProduct[] {
  const products = new Map<string, Row<'batch'>[]>();
  for (const b of m.batches) products.set(b.product, [...(products.get(b.product) ?? []), b]);
  return [...products]
    .flatMap(([product, its]): CounterProduct[] => {
      const last = its.at(-1);
      if (!last) return [];
      return [
        {
          product,
          name: last.productName,
          lots: its.map((b) => b.id),
          recipe: allOf(its.map((b) => recipeUsed(m, b))),
          ticket: ticketOf(m, last.formula, product),
        },
      ];
    })
    .sort((a, b) => a.name.localeCompare(b.name));
}

/** What one recipe or another says: nothing is absent that one of them does not know. */
function allOf(recipes: readonly AllergenAnswer[]): AllergenAnswer {
  const notKnown = [...new Set(recipes.flatMap((r) => r.notKnown))];
  return {
    contains: [...new Set(recipes.flatMap((r) => r.contains))],
    mayContain: [...new Set(recipes.flatMap((r) => r.mayContain))],
    notKnown,
    checkedSince: notKnown.length > 0 ? null : (recipes.flatMap((r) => r.checkedSince ?? []).sort()[0] ?? null),
  };
}

/** What the version that a batch was made by says. Of a product that it does not name nobody knows what goes on or under it. */
function recipeUsed(m: CounterMaterial, { make, formula, product, productName }: Row<'batch'>): AllergenAnswer {
  const used = m.makes.find((one) => one.id === make)?.formulaVersion;
  const version = m.formulas.find((f) => f.id === used);
  const sources = allergenSources(m, m.now, version);
  const content = version?.content ?? sources.contentOf(formula);
  const named = content && productAllergens(content, product, sources);
  if (named && version) return named;
  const said = named ?? (content && formulaAllergens(content, sources));
  return {
    contains: said?.contains ?? [],
    mayContain: said?.mayContain ?? [],
    notKnown: [...(said?.notKnown ?? []), productName],
    checkedSince: null,
  };
}
