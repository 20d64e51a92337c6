import {
  canonicalInteger,
  decided,
  derivedId,
  id,
  localDay,
  observed,
  refuse,
  sumOfKnown,
  type Observed,
  type Outcome,
  timeDoubt,
} from '@bakehouse/kernel';
import * as z from 'zod';
import { divisionSum } from './division-sum.js';
import { ownLot, thrownAway } from './own-rows.js';
import { defineKind } from '../base/kind.js';
import type { Change, Need, Row, State } from '../base/state.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';
import { specificationAt } from '../control/specification-at.js';
import { dateType } from '../rows/formula-content.js';
import { eachAmountOnce } from '../rows/stock.js';

const runLine = z.strictObject({
  /** Chosen by the device, so that it can be put into an oven before the network is back. */
  run: id,
  product: id,
  heads: z.int().positive().max(10_000).nullable(),
  pieces: z.int().positive().max(100_000),
  scaling: observed,
});
const runOutcome = z.strictObject({
  name: z.string(),
  specification: id.nullable(),
  scalingMg: canonicalInteger,
  lifeDays: z.int().nullable(),
  dateType: dateType.nullable(),
  steps: z.array(z.string()),
});
const sum = z.strictObject({
  inMg: canonicalInteger.nullable(),
  runsMg: canonicalInteger,
  oldDoughMg: canonicalInteger,
  scrapMg: canonicalInteger,
  differenceMg: canonicalInteger.nullable(),
});

/** One make became products: pieces at a scaling weight, old dough kept for later, scrap. What does not add up is shown, never hidden. */
export const divided = defineKind({
  name: 'divided',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A mix was divided into products',
  official: 'Division into products',
  words: ['note'],
  payload: z
    .strictObject({
      make: id,
      /** What there was to divide; null takes what went into the make. */
      quantity: observed.nullable(),
      runs: z.array(runLine).max(30),
      oldDough: observed.nullable(),
      scrap: observed.nullable(),
    })
    .refine((p) => p.runs.length > 0 || p.oldDough !== null || p.scrap !== null, {
      message: 'a product, old dough or scrap',
      path: ['runs'],
    }),
  outcome: z.strictObject({ runs: z.array(runOutcome), sum, makes: id, makeName: z.string() }),
  examples: [
    {
      make: '0190a6d0-7b3c-7000-8000-0000000000e1',
      quantity: null,
      oldDough: { figure: '1200', unit: 'g' },
      scrap: { figure: '270', unit: 'g' },
      runs: [
        {
          run: '0190a6d0-7b3c-7000-8000-0000000000e2',
          product: '0190a6d0-7b3c-7000-8000-0000000000c2',
          heads: null,
          pieces: 20,
          scaling: { figure: '910', unit: 'g' },
        },
      ],
    },
  ],
  needs: (p) => [
    { in: 'make', id: p.make },
    { in: 'lot', id: p.make },
    { in: 'flow', by: 'target', value: p.make },
    ...p.runs.flatMap((r): Need[] => [
      { in: 'run', id: r.run },
      { in: 'lot', id: r.run },
      { in: 'specification', by: 'material', value: r.product },
    ]),
  ],
  then(p, state): Need[] {
    const make = state.get('make', p.make);
    const quantities = [p.quantity, p.oldDough, p.scrap, ...p.runs.map((r) => r.scaling)];
    return [
      ...(make ? [{ in: 'formulaVersion', id: make.formulaVersion } satisfies Need] : []),
      ...quantities.flatMap((quantity) => quantityNeeds(state, quantity, [p.make])),
    ];
  },
  decide({ payload: p, at }, state, { previous }) {
    const [make, lot] = [state.get('make', p.make), state.get('lot', p.make)];
    if (!make || !lot) return refuse('unknown-make', 'payload.make');
    const runs: z.infer<typeof runOutcome>[] = [];
    for (const [i, r] of p.runs.entries()) {
      const own = previous?.payload.runs.some((was) => was.run === r.run) ?? false;
      const taken = !own && (state.get('run', r.run) ?? state.get('lot', r.run)) !== undefined;
      if (taken || p.runs.findIndex((other) => other.run === r.run) !== i) return refuse('id-reused', `payload.runs.${i}.run`);
      const read = readRun(r, state, { make, lot, at }, `payload.runs.${i}`);
      if (!read.ok) return read;
      runs.push(read.value);
    }
    const [quantity, oldDough, scrap] = [
      massOf(p.quantity, state, { lot, at }, 'payload.quantity'),
      massOf(p.oldDough, state, { lot, at }, 'payload.oldDough'),
      massOf(p.scrap, state, { lot, at }, 'payload.scrap'),
    ];
    if (!quantity.ok) return quantity;
    if (!oldDough.ok) return oldDough;
    if (!scrap.ok) return scrap;
    const inMg = quantity.value ?? sumOf(eachAmountOnce(state.find('flow', 'target', p.make)).map((f) => f.mg));
    const pieces = p.runs.map((r, i) => ({ pieces: r.pieces, scalingMg: runs[i]?.scalingMg ?? 0 }));
    return decided({
      runs,
      sum: divisionSum(inMg, pieces, oldDough.value ?? 0, scrap.value ?? 0),
      makes: lot.material,
      makeName: lot.name,
    });
  },
  rows({ payload: p, root, at, until, precision }, o, stamp): Change[] {
    const flow = (target: string, mg: number, pieces: number | null): Change => ({
      in: 'flow',
      id: derivedId(root, `flow ${target}`),
      row: {
        source: p.make,
        target,
        mg,
        pieces,
        how: pieces === null ? 'weighed' : 'by-recipe',
        type: 'divided',
        certain: true,
        anyOf: null,
        at,
        ...timeDoubt({ at, until, precision }),
        day: localDay(at, stamp.zone),
      },
    });
    const runs = p.runs.flatMap((r, i): Change[] => {
      const of = o.runs[i];
      if (!of) return [];
      const mg = r.pieces * of.scalingMg;
      return [
        {
          in: 'run',
          id: r.run,
          row: {
            make: p.make,
            product: r.product,
            productName: of.name,
            heads: r.heads,
            pieces: r.pieces,
            scalingMg: of.scalingMg,
            lifeDays: of.lifeDays,
            dateType: of.dateType,
            steps: of.steps,
            at,
          },
        },
        ownLot(r.run, { material: r.product, specification: of.specification, name: of.name, type: 'run', mg, pieces: r.pieces, at }),
        flow(r.run, mg, r.pieces),
      ];
    });
    const { oldDoughMg, scrapMg } = o.sum;
    const oldDough = derivedId(root, 'old dough');
    return [
      { in: 'divided', id: root, row: { make: p.make, weighedMg: p.quantity === null ? null : o.sum.inMg, ...o.sum, at } },
      ...runs,
      ...(oldDoughMg === 0
        ? []
        : [
            ownLot(oldDough, { material: o.makes, specification: null, name: o.makeName, type: 'old-dough', mg: oldDoughMg, at }),
            flow(oldDough, oldDoughMg, null),
          ]),
      ...(scrapMg === 0
        ? []
        : [
            thrownAway(derivedId(root, 'scrap'), {
              lot: p.make,
              trip: root,
              mg: scrapMg,
              pieces: null,
              how: 'weighed',
              site: stamp.book,
              at,
              earliest: timeDoubt({ at, until, precision }).earliest,
            }),
          ]),
    ];
  },
});

/** A slip of the finger beyond it: pieces times weight stays a number that adds up exactly. */
const heaviestPieceMg = 1_000_000_000;

function readRun(
  r: z.infer<typeof runLine>,
  state: State,
  { make, lot, at }: OfLot & { readonly make: Row<'make'> },
  field: string,
): Outcome<z.infer<typeof runOutcome>> {
  const content = state.get('formulaVersion', make.formulaVersion)?.content;
  const planned = content?.products.find((product) => product.product === r.product);
  const spec = specificationAt(state, r.product, at);
  if (!planned && !spec) return refuse('unknown-material', `${field}.product`);
  const scaling = massOf(r.scaling, state, { lot, at }, `${field}.scaling`);
  if (!scaling.ok) return scaling;
  if (scaling.value === 0) return refuse('unacceptable-value', `${field}.scaling`, 'more than nothing');
  if ((scaling.value ?? 0) > heaviestPieceMg) return refuse('unacceptable-value', `${field}.scaling`, 'at most 1 t for each piece');
  return {
    ok: true,
    value: {
      name: planned?.name ?? spec?.name ?? '',
      specification: spec?.id ?? null,
      scalingMg: scaling.value ?? 0,
      lifeDays: planned?.lifeDays ?? spec?.lifeDays ?? null,
      dateType: planned?.dateType ?? null,
      steps: [...new Set([...(content?.steps.map((s) => s.type) ?? []), ...(planned && planned.ovens.length > 0 ? ['bake'] : [])])],
    },
  };
}

interface OfLot {
  readonly lot: Row<'lot'>;
  readonly at: string;
}

/** What is divided is what was made, so a volume is weighed by the density of that: of a product it is the density once it is baked. */
function massOf(quantity: Observed | null, state: State, { lot, at }: OfLot, field: string): Outcome<number | null> {
  const amount = quantityOf(state, quantity, { lots: [lot], at }, field);
  if (!amount.ok) return amount;
  return quantity !== null && amount.value.mg === null
    ? refuse('unacceptable-value', field, 'a weight')
    : { ok: true, value: amount.value.mg };
}

/** The sum of these, or null where there are none or one has no figure. */
const sumOf = (parts: readonly (number | null)[]): number | null => (parts.length === 0 ? null : sumOfKnown(parts));
