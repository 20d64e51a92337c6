import { calendarDay as day, canonicalInteger, collection, how, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';
import { covers } from './control.js';
import { atPlace, atStation } from './sites.js';

export const delivery = collection(
  'delivery',
  z.object({
    supplier: id.nullable(),
    note: z.string().nullable(),
    unattended: z.boolean(),
    receivedAt: instant,
    photo: z.string().nullable(),
  }),
  { by: ['supplier'], along: [['book', 'receivedAt']], visibleTo: 'organisation' },
);

export const lotCodeState = z.enum(['on-it', 'none-on-it', 'not-known-yet', 'own']);
/**
 * A traceable amount: received, made, kept old dough, the content of a vessel, the pieces of a batch, or a placeholder for one whose code nobody has yet.
 * A make's lot has the make's id, a product run's lot the run's, a batch's lot the batch's. Where the record that it came with is withdrawn, or corrected so
 * that it does not tell of it any more, it is a placeholder with its name and its code: something may have been used, and is traced and recalled by it.
 */
export const lot = collection(
  'lot',
  z.object({
    material: id,
    specification: id.nullable(),
    name: z.string(),
    type: z.enum(['received', 'made', 'old-dough', 'run', 'batch', 'vessel', 'placeholder', 'withdrawn']),
    code: z.string().nullable(),
    /** The code without what people write in more than one way (`codeKeyOf`), of what came from outside: lots that are alike are found by it. */
    codeKey: z.string().nullable(),
    codeState: lotCodeState,
    delivery: id.nullable(),
    supplier: id.nullable(),
    mg: canonicalInteger.nullable(),
    pieces: z.int().nullable(),
    quantityAsWritten: z.string().nullable(),
    bestBefore: day.nullable(),
    useBy: day.nullable(),
    at: instant,
  }),
  {
    by: ['delivery', 'material', 'codeKey', 'type'],
    along: [
      ['book', 'name', 'at'],
      ['material', 'type', 'at'],
    ],
    stays: { type: 'withdrawn' },
    visibleTo: 'organisation',
  },
);

/** Runs, batches and what was received in pieces are counted; all else is weighed. */
export const countedInPieces = (of: { readonly type: string; readonly mg: number | null; readonly pieces: number | null }): boolean =>
  of.type === 'batch' || of.type === 'run' || (of.mg === null && of.pieces !== null);

export const receiptChoice = z.enum(['accepted', 'refused', 'accepted-with-condition']);
/** Why a lot should not have been used. */
export const lotTrouble = z.enum(['held-lot-used', 'refused-lot-used', 'expired-lot-used', 'past-life-used']);

/** Accepted, refused or accepted with a condition. A refusal stands until a signed decision ends it. */
export const receiptDecision = collection(
  'receipt_decision',
  z.object({
    lot: id,
    decision: receiptChoice,
    condition: z.string().nullable(),
    at: instant,
  }),
  { by: ['lot'], visibleTo: 'organisation' },
);
/** A signed decision that goods which were refused, whose record was withdrawn, or that were at a place on hold, are used after all: what it ends, and what it covers. */
export const refusalEnded = collection('refusal_ended', z.object({ refusal: id, lot: id, covers, at: instant }), {
  by: ['lot'],
  visibleTo: 'organisation',
});
/** A placeholder named later: its code, or that it is the same as a lot already known. */
export const lotIdentified = collection(
  'lot_identified',
  z.object({
    lot: id,
    code: z.string().nullable(),
    codeKey: z.string().nullable(),
    same: id.nullable(),
    delivery: id.nullable(),
    at: instant,
  }),
  { by: ['lot', 'codeKey', 'same'], visibleTo: 'organisation' },
);

/** ingredient, late addition, rework, process aid, topped-up vessel, divided, formed into a batch, put on after the oven. */
export const flowType = z.enum(['ingredient', 'late-addition', 'rework', 'aid', 'vessel', 'divided', 'batched', 'after-oven']);
/** What is weighed into a make. */
export const weighedType = flowType.extract(['ingredient', 'late-addition', 'rework', 'aid']);
/** So much of one lot went into another. */
export const flow = collection(
  'flow',
  z.object({
    source: id,
    target: id,
    mg: canonicalInteger.nullable(),
    pieces: z.int().nullable(),
    how,
    type: flowType,
    /** possible: one of several lots, nobody knows which; `anyOf` names the group. */
    certain: z.boolean(),
    anyOf: id.nullable(),
    at: instant,
    /** Between when it may have happened, where its instant is not known exactly (`timeDoubt`); null where it is. */
    earliest: instant.nullable(),
    latest: instant.nullable(),
    /** The day that it was on the wall there: a use-by date ends with its day. */
    day,
  }),
  { by: ['source', 'target'], visibleTo: 'organisation' },
);

/** Amounts that went somewhere, each once: what went as one of several lots is one row a lot, and one amount. */
export const eachAmountOnce = <F extends { readonly id: string; readonly anyOf: string | null }>(flows: readonly F[]): F[] => [
  ...new Map(flows.map((f) => [f.anyOf ?? f.id, f])).values(),
];

/** What is open at a station for a material, until another is opened there for it or it is emptied. A vessel is a station of its own: its content. */
export const inUse = collection(
  'in_use',
  z.object({
    station: id,
    material: id,
    lot: id,
    name: z.string(),
    specification: id.nullable(),
    /** Where it was opened: by the plan in force there it is judged past its life. */
    site: id,
    at: instant,
    beside: z.boolean(),
  }),
  {
    by: ['station', 'lot'],
    along: [['station', 'material', 'at'], atStation],
    visibleTo: 'organisation',
  },
);
export const emptied = collection('emptied', z.object({ station: id, lot: id, at: instant, leftMg: canonicalInteger.nullable() }), {
  by: ['station', 'lot'],
  visibleTo: 'organisation',
});
/** A count closes the balance of the site that counted: the difference is stated, never hidden. */
export const counted = collection(
  'counted',
  z.object({ lot: id, place: id.nullable(), mg: canonicalInteger.nullable(), pieces: z.int().nullable(), site: id, at: instant }),
  { by: ['lot'], along: [atPlace], visibleTo: 'organisation' },
);
/** So much of a lot, or all of it, was carried to another place of its site. Where a lot stands changes no amount and narrows no trace. */
export const moved = collection(
  'moved',
  z.object({
    lot: id,
    fromPlace: id.nullable(),
    toPlace: id,
    toName: z.string(),
    mg: canonicalInteger.nullable(),
    pieces: z.int().nullable(),
    how,
    at: instant,
  }),
  {
    by: ['lot'],
    along: [
      ['toPlace', 'at'],
      ['fromPlace', 'at'],
    ],
    visibleTo: 'organisation',
  },
);

export const stockRows = { delivery, lot, receiptDecision, lotIdentified, flow, inUse, emptied, counted, moved, refusalEnded } as const;
