import * as z from 'zod';
import { canonicalInteger, how, id, observed } from '../kernel/fields.js';
import { decided, defineKind } from '../kernel/kind.js';
import { derivedId } from '../kernel/derived-id.js';
import { refuse } from '../kernel/problems.js';
import type { Change, Need } from '../kernel/state.js';
import { amountOf } from '../stock/amounts.js';
import { specificationAt } from '../stock/delivery-received.js';
import { lotNeeds, troubleWith } from '../stock/lot-trouble.js';

const line = z.strictObject({
  material: id,
  /** The lot that was open; null where nobody can say: a placeholder stands for it until somebody can. */
  lot: id.nullable(),
  quantity: observed.nullable(), how,
  sort: z.enum(['ingredient', 'late-addition', 'rework', 'aid']),
});
const lineOutcome = z.strictObject({
  lot: id, name: z.string(), specification: id, mg: canonicalInteger.nullable(), pieces: z.int().nullable(),
  trouble: z.enum(['held-lot-used', 'refused-lot-used', 'expired-lot-used']).nullable(),
});

/** What went into a make, by lot. A held, refused or out-of-date lot that was used is recorded all the same and opens a deviation. */
export const weighedIn = defineKind({
  name: 'weighed-in', version: 1, book: 'site', sort: 'fact', offline: true, signed: null, permission: 'record',
  phrase: 'Ingredients were weighed in', words: ['note'],
  payload: z.strictObject({ make: id, lines: z.array(line).min(1).max(60) }),
  outcome: z.strictObject({ lines: z.array(lineOutcome) }),
  examples: [{ make: '0190a6d0-7b3c-7000-8000-0000000000e1', lines: [{
    material: '0190a6d0-7b3c-7000-8000-0000000000c1', lot: '0190a6d0-7b3c-7000-8000-0000000000b1', quantity: { figure: '16.4', unit: 'kg' }, how: 'guessed', sort: 'ingredient',
  }] }],
  needs: (p) => [
    { in: 'make', id: p.make },
    ...p.lines.flatMap((l): Need[] => [{ in: 'specification', by: 'material', value: l.material }, ...(l.lot === null ? [] : lotNeeds(l.lot))]),
  ],
  decide({ payload, root, at }, state) {
    if (!state.get('make', payload.make)) return refuse('unknown-make', 'payload.make');
    const lines: z.infer<typeof lineOutcome>[] = [];
    for (const [i, l] of payload.lines.entries()) {
      const field = `payload.lines.${i}`;
      const spec = specificationAt(state, l.material, at);
      if (!spec) return refuse('unknown-material', `${field}.material`);
      if (l.lot !== null && !state.get('lot', l.lot)) return refuse('unknown-lot', `${field}.lot`);
      const amount = amountOf(l.quantity, spec, `${field}.quantity`);
      if (!amount.ok) return amount;
      lines.push({
        lot: l.lot ?? derivedId(root, `placeholder ${i}`), name: spec.name, specification: spec.id, ...amount.value,
        trouble: l.lot === null ? null : troubleWith(state, l.lot, at),
      });
    }
    return decided({ lines });
  },
  rows: ({ payload, root, at }, outcome): Change[] => payload.lines.flatMap((l, i): Change[] => {
    const o = outcome.lines[i];
    if (!o) return [];
    const flow: Change = { in: 'flow', id: derivedId(root, `flow ${i}`), row: {
      source: o.lot, target: payload.make, mg: o.mg, pieces: o.pieces, how: l.how, sort: l.sort, certain: true, anyOf: null, at,
    } };
    const placeholder: Change = { in: 'lot', id: o.lot, row: {
      material: l.material, specification: o.specification, name: o.name, sort: 'placeholder', code: null, codeState: 'not-known-yet', delivery: null, supplier: null,
      mg: null, pieces: null, quantityAsWritten: null, bestBefore: null, useBy: null, at,
    } };
    const deviation: Change | undefined = o.trouble === null ? undefined : { in: 'deviation', id: derivedId(root, `deviation ${i}`), row: {
      subjectSort: 'make', subject: payload.make, sort: o.trouble, class: 'must', summary: o.name, holds: true, at,
    } };
    return [flow, ...(l.lot === null ? [placeholder] : []), ...(deviation ? [deviation] : [])];
  }),
});
