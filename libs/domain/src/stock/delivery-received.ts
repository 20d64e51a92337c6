import * as z from 'zod';
import { canonicalInteger, code, day, id, observed, temperature } from '../kernel/fields.js';
import { decided, defineKind } from '../kernel/kind.js';
import { refuse } from '../kernel/problems.js';
import type { Change, Need, State } from '../kernel/state.js';
import { amountOf } from './amounts.js';

const line = z.strictObject({
  /** Chosen by the device, so that what is opened from this line before the network is back already has its lot. */
  lot: id,
  material: id,
  /** The supplier's lot code; null with "none-on-it" (it has none) or "not-known-yet" (the paper is to come). */
  code: code.nullable(), codeState: z.enum(['on-it', 'none-on-it', 'not-known-yet']),
  quantity: observed.nullable(), asWritten: z.string().max(60).nullable(),
  bestBefore: day.nullable(), useBy: day.nullable(),
  temperature: temperature.extend({ measured: z.enum(['air', 'surface', 'between-packs', 'core']) }).nullable(),
}).refine((l) => (l.code === null) === (l.codeState !== 'on-it'), { message: 'a code exactly when codeState is "on-it"', path: ['code'] });

const ofMaterial = z.strictObject({ specification: id, name: z.string(), mg: canonicalInteger.nullable(), pieces: z.int().nullable() });

/** Goods that came, with what the paper and the packs say. Found in the porch without anyone there: `unattended`. */
export const deliveryReceived = defineKind({
  name: 'delivery-received', version: 1, book: 'site', sort: 'fact', offline: true, signed: null, permission: 'record',
  phrase: 'Goods came in', words: ['note'],
  payload: z.strictObject({
    supplier: id.nullable(), noteNumber: z.string().max(60).nullable(), photo: z.string().max(80).nullable(), unattended: z.boolean(), lines: z.array(line).min(1).max(60),
  }),
  outcome: z.strictObject({ lines: z.array(ofMaterial) }),
  examples: [{
    supplier: '0190a6d0-7b3c-7000-8000-0000000000a1', noteNumber: 'DN 20417', photo: null, unattended: false,
    lines: [{
      lot: '0190a6d0-7b3c-7000-8000-0000000000b1', material: '0190a6d0-7b3c-7000-8000-0000000000c1', code: 'M4471', codeState: 'on-it',
      quantity: { figure: '25', unit: 'kg' }, asWritten: '25 kg', bestBefore: '2027-02-28', useBy: null, temperature: null,
    }],
  }],
  needs: (p) => [
    ...(p.supplier === null ? [] : [{ in: 'party', by: 'party', value: p.supplier } satisfies Need]),
    ...p.lines.flatMap((l): Need[] => [{ in: 'specification', by: 'material', value: l.material }, { in: 'lot', id: l.lot }]),
  ],
  decide({ payload, at, corrects }, state) {
    if (payload.supplier !== null && state.find('party', 'party', payload.supplier).length === 0) return refuse('unknown-party', 'payload.supplier');
    const lines: z.infer<typeof ofMaterial>[] = [];
    for (const [i, l] of payload.lines.entries()) {
      const spec = specificationAt(state, l.material, at);
      if (!spec) return refuse('unknown-material', `payload.lines.${i}.material`);
      if (corrects === undefined && state.get('lot', l.lot)) return refuse('id-reused', `payload.lines.${i}.lot`);
      const amount = amountOf(l.quantity, spec, `payload.lines.${i}.quantity`);
      if (!amount.ok) return amount;
      lines.push({ specification: spec.id, name: spec.name, ...amount.value });
    }
    return decided({ lines });
  },
  rows({ payload, root, at }, outcome): Change[] {
    return [
      { in: 'delivery', id: root, row: { supplier: payload.supplier, note: payload.noteNumber, unattended: payload.unattended, receivedAt: at, photo: payload.photo } },
      ...payload.lines.flatMap((l, i): Change[] => {
        const of = outcome.lines[i];
        return of === undefined ? [] : [{
          in: 'lot', id: l.lot, row: {
            material: l.material, specification: of.specification, name: of.name, sort: l.codeState === 'not-known-yet' ? 'placeholder' : 'received',
            code: l.code, codeState: l.codeState, delivery: root, supplier: payload.supplier, mg: of.mg, pieces: of.pieces,
            quantityAsWritten: l.asWritten, bestBefore: l.bestBefore, useBy: l.useBy, at,
          },
        }];
      }),
    ];
  },
});

/** The specification of a material that was in force at an instant; the earliest one where the instant is before them all. */
export function specificationAt(state: State, material: string, at: string) {
  const all = [...state.find('specification', 'material', material)].sort((a, b) => (a.since < b.since ? -1 : 1));
  return all.filter((s) => s.since <= at).at(-1) ?? all[0];
}
