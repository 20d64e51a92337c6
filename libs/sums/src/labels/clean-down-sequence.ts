import { refuse, type Refused } from '@bakehouse/kernel';
import * as z from 'zod';
import { sequenceRead } from './label-spellings.js';
import { cheapestOrder, exactUpTo, forbidden, goodOrder, lowerBound, orderCost, type Costs } from './visiting-order.js';
import { defineCalculation, standardCaution } from '../calculation.js';
import { between, only } from '../food-safety/fields.js';

const most = 100;
const nameError = 'a name of 1 to 120 characters';
const name = z.string({ error: nameError }).trim().min(1, nameError).max(120, nameError);
const thousandths = 1000;
const costError = 'a cost from 0 to 1000000 with at most three decimals';
const cost = between('a cost, in minutes or any one unit', 0, 1_000_000).refine(
  (figure) => Math.abs(figure * thousandths - Math.round(figure * thousandths)) < 1e-6,
  costError,
);
const change = only({ from: name, to: name, cost });

const input = only({
  makes: z
    .array(only({ name, allergens: z.array(z.string().trim().min(1).max(60)).max(60) }), {
      error: 'a list of makes with name and allergens',
    })
    .min(1, 'at least one make')
    .max(most, `at most ${most} makes`),
  costs: z
    .union([z.array(change).max(most * most), z.array(z.array(cost).max(most)).max(most)], {
      error: 'a list of {from, to, cost}, or a square table with a row for each make changed from and a column for each make changed to',
    })
    .optional()
    .meta({
      description: 'the cost of each change; a pair that is not listed costs cleanDownCost where an allergen must be cleaned away, else 0',
    }),
  cleanDownCost: cost.optional().meta({ description: '1 when left out' }),
  mustBeLast: z.array(name).max(most).optional().meta({ description: 'the makes that come after all others' }),
});
type Given = z.output<typeof input>;
type Make = Given['makes'][number];
type Table = { ok: true; costs: number[][] } | Refused;

const removedBy = (from: Make | undefined, to: Make | undefined): string[] =>
  (from?.allergens ?? []).filter((one) => !(to?.allergens ?? []).includes(one));

function costTable(given: Given, places: ReadonlyMap<string, number>): Table {
  const { makes } = given;
  const usual = Math.round((given.cleanDownCost ?? 1) * thousandths);
  const costs = makes.map((from) => makes.map((to) => (removedBy(from, to).length > 0 ? usual : 0)));
  for (const [index, entry] of (given.costs ?? []).entries()) {
    if (Array.isArray(entry)) {
      if (entry.length !== makes.length || given.costs?.length !== makes.length)
        return refuse('unacceptable-value', 'costs', `a square table of ${makes.length} rows and columns`);
      costs[index] = entry.map((one) => Math.round(one * thousandths));
    } else {
      const [from, to] = [places.get(entry.from), places.get(entry.to)];
      const row = from === undefined ? undefined : costs[from];
      if (row === undefined || to === undefined)
        return refuse('unacceptable-value', `costs.${index}.${row === undefined ? 'from' : 'to'}`, 'the name of one of the makes');
      row[to] = Math.round(entry.cost * thousandths);
    }
  }
  return { ok: true, costs };
}

/** Forbids every change from a make that must be last to one that need not. */
function withLast(costs: number[][], last: ReadonlySet<number>): number[][] {
  return costs.map((row, from) => row.map((one, to) => (last.has(from) && !last.has(to) ? forbidden : one)));
}

function solve(costs: Costs): { order: number[]; cost: number; least: number; exact: boolean } {
  const exact = costs.length <= exactUpTo;
  const order = exact ? cheapestOrder(costs) : goodOrder(costs);
  const found = orderCost(costs, order);
  const least = exact ? found : lowerBound(costs);
  return { order, cost: found, least, exact: exact || found === least };
}

/** The order of makes that costs least to clean between. Exact to 15 makes; above that a good order with the bound that none can beat. */
export const cleanDownSequence = defineCalculation({
  name: 'clean-down-sequence',
  title: 'The order of makes with the least cleaning between allergens',
  input,
  output: z.object({
    order: z.array(z.string()),
    cost: z.number(),
    exact: z.boolean().meta({ description: 'true where no order costs less' }),
    lowerBound: z.number().meta({ description: 'no order costs less than this' }),
    changes: z.array(z.object({ from: z.string(), to: z.string(), cost: z.number(), cleanAway: z.array(z.string()) })),
  }),
  example: {
    makes: [
      { name: 'almond tart', allergens: ['wheat', 'almond'] },
      { name: 'white dough', allergens: ['wheat'] },
      { name: 'milk buns', allergens: ['wheat', 'milk'] },
    ],
    cleanDownCost: 20,
    mustBeLast: ['almond tart'],
  },
  alsoReads: sequenceRead,
  run(given) {
    const { makes } = given;
    const places = new Map(makes.map((make, index) => [make.name, index]));
    if (places.size !== makes.length) return refuse('unacceptable-value', 'makes', 'makes with different names');
    const table = costTable(given, places);
    if (!table.ok) return table;
    const last = new Set<number>();
    for (const [index, one] of (given.mustBeLast ?? []).entries()) {
      const place = places.get(one);
      if (place === undefined) return refuse('unacceptable-value', `mustBeLast.${index}`, 'the name of one of the makes');
      last.add(place);
    }
    const found = solve(withLast(table.costs, last));
    const changes = found.order.slice(1).map((to, index) => {
      const from = found.order[index] ?? 0;
      return {
        from: makes[from]?.name ?? '',
        to: makes[to]?.name ?? '',
        cost: (table.costs[from]?.[to] ?? 0) / thousandths,
        cleanAway: removedBy(makes[from], makes[to]),
      };
    });
    const order = found.order.map((index) => makes[index]?.name ?? '');
    const [total, least] = [found.cost / thousandths, found.least / thousandths];
    return {
      ok: true,
      value: {
        order,
        cost: total,
        exact: found.exact,
        lowerBound: least,
        changes,
        inputs: {
          makes,
          costs: table.costs.map((row) => row.map((one) => one / thousandths)),
          cleanDownCost: given.cleanDownCost ?? 1,
          mustBeLast: given.mustBeLast ?? [],
        },
        explanation:
          `${order.join(', then ')}: the changes cost ${total} together. ` +
          (found.exact
            ? 'No order costs less.'
            : `${makes.length} makes are too many to try all orders: no order costs less than ${least}, so this one is at most ${(found.cost - found.least) / thousandths} above the best.`),
        source: 'Dynamic programming over subsets (Held and Karp 1962); bound by least assignment (Kuhn 1955)',
        validRange: `exact to ${exactUpTo} makes; to ${most} makes a good order with a bound`,
        cautions: [
          standardCaution,
          'An order saves cleaning; it does not replace it. Clean down, and check that it worked, wherever an allergen must be cleaned away.',
          'It is taken that the line is clean at the start and that every change which must clean an allergen away gets its clean-down.',
          ...(changes.some((one) => one.cleanAway.length > 0 && one.cost === 0)
            ? ['A change that must clean an allergen away was given no cost: it still needs its clean-down.']
            : []),
        ],
      },
    };
  },
});
