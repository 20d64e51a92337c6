import {
  amountOf,
  calendarDay as day,
  canonicalInteger,
  code,
  decided,
  derivedId,
  dimensionOf,
  id,
  observed,
  refuse,
  temperature,
  upcaster,
  type Observed,
  type Outcome,
  moreThanNothing,
} from '@bakehouse/kernel';
import * as z from 'zod';
import { specificationAt } from '../control/specification-at.js';
import { codeKeyOf } from '../standing/alike.js';
import { defineKind } from '../base/kind.js';
import type { Change, Need, State } from '../base/state.js';
import { timedUse, usedAfter, usedAsNeeds, usedPastDeviations } from './used-past.js';
import { judged, judgeNeeds, judgeTaken, readingRows, type Judged, type Taken } from '../control/judged.js';

const line = z
  .strictObject({
    /** Chosen by the device, so that what is opened from this line before the network is back already has its lot. */
    lot: id,
    material: id,
    /** The supplier's lot code; null with "none-on-it" (it has none) or "not-known-yet" (the paper is to come). */
    code: code.nullable(),
    codeState: z.enum(['on-it', 'none-on-it', 'not-known-yet']),
    quantity: observed.nullable(),
    asWritten: z.string().max(60).nullable(),
    bestBefore: day.nullable(),
    useBy: day.nullable(),
    /** Judged as a reading about this lot; `point` is the control point that it was taken for. */
    temperature: temperature
      .extend({
        measured: z.enum(['air', 'surface', 'between-packs', 'core']),
        point: id.nullable().optional(),
        instrument: id.nullable().optional(),
      })
      .nullable(),
  })
  .refine((l) => (l.code === null) === (l.codeState !== 'on-it'), { message: 'a code exactly when codeState is "on-it"', path: ['code'] });

type Line = z.infer<typeof line>;

/** What was used of a lot stays what was used: it does not turn into another material afterwards. */
const anotherMaterial = 'a new lot for another material; the earlier lot stays where it was used, and its record counts as withdrawn';

const asRead = z.strictObject({
  specification: id,
  name: z.string(),
  mg: canonicalInteger.nullable(),
  pieces: z.int().nullable(),
  reading: judged.nullable(),
});
const ofMaterial = asRead.extend({
  /** What it had gone into past its use-by date, where a correction changed that date. */
  usedPast: z.array(timedUse),
});

/** What came by volume, and nobody said what a millilitre of it weighs: it is on record as it is written, and how much that is, is not known. */
const known = (quantity: Observed | null, { densityMgPerMl }: { readonly densityMgPerMl: number | null }): Observed | null =>
  quantity !== null && densityMgPerMl === null && dimensionOf(quantity.unit) === 'volume' ? null : quantity;

/** Goods that came, with what the paper and the packs say, and how warm they were. Found in the porch without anyone there: `unattended`. */
export const deliveryReceived = defineKind({
  name: 'delivery-received',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A delivery was received',
  official: 'Delivery received',
  words: ['note'],
  payload: z.strictObject({
    supplier: id.nullable(),
    noteNumber: z.string().max(60).nullable(),
    photo: z.string().max(80).nullable(),
    unattended: z.boolean(),
    lines: z.array(line).min(1).max(60),
  }),
  outcome: z.strictObject({ lines: z.array(ofMaterial) }),
  outcomeVersion: 2,
  upcastOutcome: {
    1: upcaster(z.strictObject({ lines: z.array(asRead) }), ({ lines }) => ({ lines: lines.map((l) => ({ ...l, usedPast: [] })) })),
  },
  examples: [
    {
      supplier: '0190a6d0-7b3c-7000-8000-0000000000a1',
      noteNumber: 'DN 20417',
      photo: null,
      unattended: false,
      lines: [
        {
          lot: '0190a6d0-7b3c-7000-8000-0000000000b1',
          material: '0190a6d0-7b3c-7000-8000-0000000000c1',
          code: 'M4471',
          codeState: 'on-it',
          quantity: { figure: '25', unit: 'kg' },
          asWritten: '25 kg',
          bestBefore: '2027-02-28',
          useBy: null,
          temperature: null,
        },
      ],
    },
  ],
  needs: (p) => [
    ...(p.supplier === null ? [] : [{ in: 'party', by: 'party', value: p.supplier } satisfies Need]),
    ...p.lines.flatMap((l): Need[] => {
      const taken = takenOf(l);
      return [{ in: 'specification', by: 'material', value: l.material }, { in: 'lot', id: l.lot }, ...(taken ? judgeNeeds(taken) : [])];
    }),
  ],
  then: (p, state, { root }) =>
    p.lines.flatMap((l) => (l.useBy !== null && state.get('lot', l.lot)?.delivery === root ? usedAsNeeds(state, l.lot) : [])),
  decide({ payload, at, root }, state, { previous }) {
    if (payload.supplier !== null && state.find('party', 'party', payload.supplier).length === 0)
      return refuse('unknown-party', 'payload.supplier');
    const lines: z.infer<typeof ofMaterial>[] = [];
    for (const [i, l] of payload.lines.entries()) {
      const field = `payload.lines.${i}`;
      const spec = specificationAt(state, l.material, at, payload.supplier);
      if (!spec) return refuse('unknown-material', `${field}.material`);
      const there = state.get('lot', l.lot);
      if ((there && there.delivery !== root) || payload.lines.findIndex((other) => other.lot === l.lot) !== i)
        return refuse('id-reused', `${field}.lot`);
      if (previous?.payload.lines.some((was) => was.lot === l.lot && was.material !== l.material))
        return refuse('unacceptable-value', `${field}.lot`, anotherMaterial);
      const amount = moreThanNothing(amountOf(known(l.quantity, spec), spec, `${field}.quantity`), `${field}.quantity`);
      if (!amount.ok) return amount;
      const reading = readingOf(l, state, previous, `${field}.temperature`);
      if (!reading.ok) return reading;
      const was = previous?.payload.lines.find((other) => other.lot === l.lot);
      const usedPast = was && was.useBy !== l.useBy ? usedAfter(state, l.lot, l.useBy) : [];
      lines.push({ specification: spec.id, name: spec.name, ...amount.value, reading: reading.value, usedPast });
    }
    return decided({ lines });
  },
  rows({ payload, root, at, doneBy, corrects }, outcome, stamp): Change[] {
    const read = { at, doneBy: doneBy ?? stamp.person, corrected: corrects !== undefined };
    return [
      {
        in: 'delivery',
        id: root,
        row: { supplier: payload.supplier, note: payload.noteNumber, unattended: payload.unattended, receivedAt: at, photo: payload.photo },
      },
      ...payload.lines.flatMap((l, i): Change[] => {
        const of = outcome.lines[i];
        if (!of) return [];
        const taken = takenOf(l);
        return [
          {
            in: 'lot',
            id: l.lot,
            row: {
              material: l.material,
              specification: of.specification,
              name: of.name,
              type: l.codeState === 'not-known-yet' ? 'placeholder' : 'received',
              code: l.code,
              codeKey: codeKeyOf(l.code),
              codeState: l.codeState,
              delivery: root,
              supplier: payload.supplier,
              mg: of.mg,
              pieces: of.pieces,
              quantityAsWritten: l.asWritten,
              bestBefore: l.bestBefore,
              useBy: l.useBy,
              at,
            },
          },
          ...usedPastDeviations(of.usedPast, { root, lot: l.lot, name: of.name }),
          ...(taken && of.reading ? readingRows(derivedId(root, `reading ${l.lot}`), taken, of.reading, read) : []),
        ];
      }),
    ];
  },
});

function takenOf({ lot, temperature: t }: Line): Taken | undefined {
  return t === null
    ? undefined
    : {
        subjectType: 'lot',
        subject: lot,
        point: t.point ?? null,
        parameter: 'temperature on arrival',
        instrument: t.instrument ?? null,
        value: { figure: t.figure, unit: t.unit },
        yes: null,
        measured: t.measured,
        seconds: null,
      };
}

/** The temperature of a line judged; a correction of the same lot's temperature is judged as a correction. */
function readingOf(
  l: Line,
  state: State,
  previous: { payload: { lines: readonly Line[] }; outcome: { lines: readonly z.infer<typeof ofMaterial>[] } } | undefined,
  field: string,
): Outcome<Judged | null> {
  const taken = takenOf(l);
  if (!taken) return { ok: true, value: null };
  const at = previous?.payload.lines.findIndex((was) => was.lot === l.lot) ?? -1;
  const was = previous?.payload.lines[at];
  const before = was && takenOf(was);
  const judgedBefore = previous?.outcome.lines[at]?.reading;
  return judgeTaken(taken, state, before && judgedBefore ? { taken: before, judged: judgedBefore } : undefined, field);
}
