import { amountOf, canonicalInteger, derivedId, id, refuse, type How, type Observed, type Outcome } from '@bakehouse/kernel';
import * as z from 'zod';
import type { Change, Need, Row, State } from '../base/state.js';
import type { SubjectType } from '../rows/control.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';
import { lotTrouble } from '../rows/stock.js';
import { holdsByItself, lotNeeds, troubleNeeds, troubleWith } from '../standing/lot-trouble.js';
import { placeholderLot } from '../stock/placeholder.js';
import { specificationAt } from '../control/specification-at.js';

/** One lot, or one that nobody can name, that went into or onto something. */
export interface PutIn {
  readonly material: string;
  readonly lot: string | null;
  readonly quantity: Observed | null;
  readonly how: How;
}

export const putInOutcome = z.strictObject({
  lot: id,
  placeholder: z.boolean(),
  name: z.string(),
  specification: id.nullable(),
  mg: canonicalInteger.nullable(),
  pieces: z.int().nullable(),
  /** The lot is of another material than the one that it stands for. */
  instead: z.boolean(),
  trouble: lotTrouble.nullable(),
});
export type PutInOutcome = z.infer<typeof putInOutcome>;

export const putInNeeds = (lines: readonly PutIn[]): Need[] =>
  lines.flatMap((l): Need[] => [{ in: 'specification', by: 'material', value: l.material }, ...(l.lot === null ? [] : lotNeeds(l.lot))]);

export const putInThen = (lines: readonly PutIn[], state: State): Need[] => [
  ...troubleNeeds(
    state,
    lines.flatMap((l) => l.lot ?? []),
  ),
  ...lines.flatMap((l) => quantityNeeds(state, l.quantity, l.lot === null ? [] : [l.lot])),
];

/**
 * Reads lines: amounts in canonical integers, a placeholder where no lot is named, and the trouble that a lot is in.
 * `before` are the lines of the entry that is corrected: a placeholder that it made stays its own.
 */
export function readPutIn(
  lines: readonly PutIn[],
  state: State,
  of: { root: string; at: string; zone: string },
  before: readonly PutInOutcome[],
): Outcome<PutInOutcome[]> {
  const read: PutInOutcome[] = [];
  for (const [i, l] of lines.entries()) {
    const field = `payload.lines.${i}`;
    const spec = specificationAt(state, l.material, of.at);
    if (!spec) return refuse('unknown-material', `${field}.material`);
    const lot = l.lot === null ? undefined : state.get('lot', l.lot);
    if (l.lot !== null && !lot) return refuse('unknown-lot', `${field}.lot`);
    const amount = lot
      ? quantityOf(state, l.quantity, { lots: [lot], at: of.at }, `${field}.quantity`)
      : amountOf(l.quantity, spec, `${field}.quantity`);
    if (!amount.ok) return amount;
    read.push({
      lot: l.lot ?? derivedId(of.root, `placeholder ${i}`),
      placeholder: l.lot === null || before.some((was) => was.placeholder && was.lot === l.lot),
      name: lot?.name ?? spec.name,
      specification: lot ? lot.specification : spec.id,
      ...amount.value,
      instead: lot !== undefined && lot.material !== l.material,
      trouble: l.lot === null ? null : troubleWith(state, l.lot, of.at, of.zone),
    });
  }
  return { ok: true, value: read };
}

interface Target {
  readonly root: string;
  readonly at: string;
  readonly doneBy: string;
  readonly target: string;
  readonly targetType: SubjectType;
  sortOf(line: number): Row<'flow'>['type'];
}

/** The flows of these lines into their target, the placeholders, and a deviation for each lot that was in trouble. */
export function putInRows(lines: readonly PutIn[], outcome: readonly PutInOutcome[], of: Target): Change[] {
  const { root, at, doneBy, target, targetType } = of;
  const flows = outcome.map((o, i): Change => ({
    in: 'flow',
    id: derivedId(root, `flow ${i}`),
    row: {
      source: o.lot,
      target,
      mg: o.mg,
      pieces: o.pieces,
      how: lines[i]?.how ?? 'estimated',
      type: of.sortOf(i),
      certain: true,
      anyOf: null,
      at,
    },
  }));
  const placeholders = outcome.flatMap((o, i) =>
    o.placeholder ? [placeholderLot(o.lot, { material: lines[i]?.material ?? o.lot, ...o }, at)] : [],
  );
  const troubled = [...new Map(outcome.map((o) => [o.lot, o])).values()].flatMap((o): Change[] =>
    o.trouble === null
      ? []
      : [
          {
            in: 'deviation',
            id: derivedId(root, `deviation ${o.lot}`),
            row: {
              subjectType: targetType,
              subject: target,
              type: o.trouble,
              class: 'ccp',
              summary: o.name,
              holds: holdsByItself(o.trouble),
              point: null,
              doneBy,
              at,
            },
          },
        ],
  );
  return [...flows, ...placeholders, ...troubled];
}
