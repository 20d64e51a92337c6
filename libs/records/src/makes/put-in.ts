import {
  amountOf,
  canonicalInteger,
  derivedId,
  id,
  localDay,
  refuse,
  type How,
  type Observed,
  type Outcome,
  type TimeDoubt,
  moreThanNothing,
  upcaster,
} from '@bakehouse/kernel';
import * as z from 'zod';
import type { Change, Need, Row, State } from '../base/state.js';
import type { SubjectType } from '../rows/control.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';
import { lotTrouble } from '../rows/stock.js';
import { alikeHeld, alikeHeldNeeds } from '../standing/alike-held.js';
import { lineNow } from '../standing/accepted-part.js';
import { lotNeeds, troubleUsing, usingNeeds } from '../standing/lot-trouble.js';
import { placeholderLot } from '../stock/placeholder.js';
import { useDeviation } from '../stock/used-in.js';
import { specificationAt } from '../control/specification-at.js';

/** One lot, or one that nobody can name, that went into or onto something. */
export interface PutIn {
  readonly material: string;
  readonly lot: string | null;
  /** The others that it may have been instead, where one or more of them were used and nobody knows which. */
  readonly orLots?: readonly string[] | undefined;
  readonly quantity: Observed | null;
  readonly how: How;
}

const before = z.strictObject({
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
/** `alikeHeld`: lots of the same code and material that something spoke against; null where nobody looked. */
export const putInOutcome = before.extend({ alikeHeld: z.array(id).nullable() });
/** Of version 1 is what nobody compared with other lots of the same code. */
export const upcastPutIn = {
  1: upcaster(z.strictObject({ lines: z.array(before) }), ({ lines }) => ({ lines: lines.map((l) => ({ ...l, alikeHeld: null })) })),
};
export type PutInOutcome = z.infer<typeof putInOutcome>;

/** One lot that a line names, or the one that it cannot name. */
interface Named {
  readonly line: PutIn;
  readonly at: number;
  readonly lot: string | null;
  readonly field: string;
  /** All that the line names: more than one where it is any of them. */
  readonly among: readonly string[];
}

/** Every lot of every line: where any of several was used there is an outcome and a flow for each. */
export const namedIn = (lines: readonly PutIn[]): Named[] =>
  lines.flatMap((line, at) => {
    const others = line.orLots ?? [];
    const among = line.lot === null ? [] : [line.lot, ...others];
    const first: Named = { line, at, lot: line.lot, field: `payload.lines.${at}.lot`, among };
    return [first, ...others.map((lot, i): Named => ({ line, at, lot, field: `payload.lines.${at}.orLots.${i}`, among }))];
  });

const lotsIn = (lines: readonly PutIn[]): string[] => namedIn(lines).flatMap(({ lot }) => lot ?? []);

export const putInNeeds = (lines: readonly PutIn[]): Need[] => [
  ...lines.map((l): Need => ({ in: 'specification', by: 'material', value: l.material })),
  ...lotsIn(lines).flatMap(lotNeeds),
];

export const putInThen = (lines: readonly PutIn[], state: State): Need[] => [
  ...usingNeeds(state, lotsIn(lines)),
  ...lotsIn(lines).flatMap((lot) => alikeHeldNeeds(state, lot)),
  ...namedIn(lines).flatMap(({ line, among }) => quantityNeeds(state, line.quantity, among)),
];

/**
 * Reads lines: amounts in canonical integers, a placeholder where no lot is named, and the trouble that a lot is in.
 * `before` are the lines of the entry that is corrected: a placeholder that it made stays its own.
 */
export function readPutIn(
  lines: readonly PutIn[],
  state: State,
  of: { root: string; at: string; zone: string; station: string | null },
  before: readonly PutInOutcome[],
): Outcome<PutInOutcome[]> {
  const read: PutInOutcome[] = [];
  const all = namedIn(lines);
  for (const [i, { line, at, lot: id, field, among }] of all.entries()) {
    const spec = specificationAt(state, line.material, of.at);
    if (!spec) return refuse('unknown-material', `payload.lines.${at}.material`);
    const lot = id === null ? undefined : state.get('lot', id);
    if (id !== null && !lot) return refuse('unknown-lot', field);
    const amount = moreThanNothing(amountIn(state, { line, at, among }, spec, of.at), `payload.lines.${at}.quantity`);
    if (!amount.ok) return amount;
    const used = lineNow(of.root, [...read.filter((r) => r.lot === id), amount.value], all.length);
    read.push({
      lot: id ?? derivedId(of.root, `placeholder ${i}`),
      placeholder: id === null || before.some((was) => was.placeholder && was.lot === id),
      name: lot?.name ?? spec.name,
      specification: lot ? lot.specification : spec.id,
      ...amount.value,
      instead: lot !== undefined && lot.material !== line.material,
      trouble: id === null ? null : troubleUsing(state, id, { ...of, ...used }),
      alikeHeld: id === null ? [] : alikeHeld(state, id, of.at),
    });
  }
  return { ok: true, value: read };
}

/** By the lots where they are named, else by what the material is. */
function amountIn(state: State, { line, at, among }: Pick<Named, 'line' | 'at' | 'among'>, spec: Row<'specification'>, when: string) {
  const field = `payload.lines.${at}.quantity`;
  if (among.length === 0) return amountOf(line.quantity, spec, field);
  return quantityOf(state, line.quantity, { lots: among.map((lot) => state.get('lot', lot)), at: when }, field);
}

interface Target {
  readonly root: string;
  readonly at: string;
  /** How far that may be from when it was. */
  readonly doubt: TimeDoubt;
  readonly zone: string;
  readonly doneBy: string;
  readonly target: string;
  readonly targetType: SubjectType;
  sortOf(line: number): Row<'flow'>['type'];
}

/** The flows of these lines into their target, the placeholders, and a deviation for each lot that was in trouble. */
export function putInRows(lines: readonly PutIn[], outcome: readonly PutInOutcome[], of: Target): Change[] {
  const { root, at, doneBy, target, targetType } = of;
  const day = localDay(at, of.zone);
  const named = namedIn(lines);
  const flows = outcome.map((o, i): Change => {
    const { line, at: lineAt = i, among = [] } = named[i] ?? {};
    const anyOf = among.length > 1 ? derivedId(root, `any ${lineAt}`) : null;
    return {
      in: 'flow',
      id: derivedId(root, `flow ${i}`),
      row: {
        source: o.lot,
        target,
        mg: o.mg,
        pieces: o.pieces,
        how: line?.how ?? 'estimated',
        type: of.sortOf(lineAt),
        certain: anyOf === null,
        anyOf,
        at,
        ...of.doubt,
        day,
      },
    };
  });
  const placeholders = outcome.flatMap((o, i) =>
    o.placeholder ? [placeholderLot(o.lot, { material: named[i]?.line.material ?? o.lot, ...o }, at)] : [],
  );
  const troubled = [...new Map(outcome.map((o) => [o.lot, o])).values()].flatMap((o): Change[] =>
    o.trouble === null
      ? []
      : [
          useDeviation(derivedId(root, `deviation ${o.lot}`), {
            subjectType: targetType,
            subject: target,
            type: o.trouble,
            lot: o.lot,
            name: o.name,
            at,
            doneBy,
          }),
        ],
  );
  return [...flows, ...placeholders, ...troubled];
}
