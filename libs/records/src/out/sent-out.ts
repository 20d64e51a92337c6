import {
  canonicalInteger,
  decided,
  derivedId,
  how,
  id,
  instant,
  instantWithOffset,
  observed,
  refuse,
  upcaster,
  moreThanNothing,
  timeDoubt,
} from '@bakehouse/kernel';
import * as z from 'zod';
import { lineNow, wayOf } from '../standing/accepted-part.js';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';
import { channel } from '../rows/out.js';
import { leavingDeviation, leavingNeeds, moreLeavingNeeds, troubledLot, troublesLeaving } from './leaving.js';

const line = z.strictObject({
  /** One lot where it is known which; several where one or more of them went and nobody knows which ("today's lots of this product"). */
  lots: z.array(id).min(1).max(20),
  quantity: observed.nullable(),
  how,
});
const lineOutcome = z.strictObject({
  name: z.string(),
  mg: canonicalInteger.nullable(),
  pieces: z.int().nullable(),
  troubled: z.array(troubledLot),
});

const outcome = z.strictObject({ until: instant.nullable(), lines: z.array(lineOutcome) });

/** What left: by van or round, over the counter, to a stall, as waste, as a gift. A held or unreleased lot that went is recorded and opens a deviation. */
export const sentOut = defineKind({
  name: 'sent-out',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'Goods were sent out',
  official: 'Dispatch and disposal',
  words: ['note'],
  payload: z.strictObject({
    channel,
    customer: id.nullable(),
    unattended: z.boolean(),
    until: instantWithOffset.nullable(),
    lines: z.array(line).min(1).max(100),
  }),
  outcome,
  /** A lot that was on hold and not released has both told of it. */
  outcomeVersion: 2,
  upcastOutcome: { 1: upcaster(outcome, (same) => same) },
  examples: [
    {
      channel: 'dispatch',
      customer: '0190a6d0-7b3c-7000-8000-0000000000a2',
      unattended: true,
      until: null,
      lines: [{ lots: ['0190a6d0-7b3c-7000-8000-0000000000b1'], quantity: { figure: '24', unit: 'piece' }, how: 'counted' }],
    },
  ],
  needs: (p) => [
    ...(p.customer === null ? [] : [{ in: 'party', by: 'party', value: p.customer } satisfies Need]),
    ...p.lines.flatMap((l) => l.lots.flatMap(leavingNeeds)),
  ],
  then: (p, state) => [
    ...moreLeavingNeeds(
      state,
      p.lines.flatMap((l) => l.lots),
    ),
    ...p.lines.flatMap((l) => quantityNeeds(state, l.quantity, l.lots)),
  ],
  decide({ payload: p, root, at }, state, { stamp }) {
    if (p.customer !== null && state.find('party', 'party', p.customer).length === 0) return refuse('unknown-party', 'payload.customer');
    const lines: z.infer<typeof lineOutcome>[] = [];
    for (const [i, l] of p.lines.entries()) {
      const lots = l.lots.map((lot) => state.get('lot', lot));
      const unknown = lots.findIndex((lot) => lot === undefined);
      if (unknown >= 0) return refuse('unknown-lot', `payload.lines.${i}.lots.${unknown}`);
      const amount = moreThanNothing(
        quantityOf(state, l.quantity, { lots, at }, `payload.lines.${i}.quantity`),
        `payload.lines.${i}.quantity`,
      );
      if (!amount.ok) return amount;
      const doneAwayWith = p.channel === 'waste' || p.channel === 'supplier-return';
      // What goes by several lines of one lot goes together.
      const of = (lot: string) => [
        ...p.lines.slice(0, i).flatMap((before, n) => (before.lots.includes(lot) ? (lines[n] ?? []) : [])),
        amount.value,
      ];
      const leaving = (lot: string) => ({
        ...(l.lots.length === 1 ? lineNow(root, of(lot), 0) : { root, pieces: null, mg: null }),
        site: stamp.book,
        way: wayOf(p.channel),
        at,
        zone: stamp.zone,
      });
      const troubled = l.lots.flatMap((lot) =>
        (doneAwayWith ? [] : troublesLeaving(state, lot, leaving(lot))).map((trouble) => ({ lot, trouble })),
      );
      lines.push({ name: lots[0]?.name ?? '', ...amount.value, troubled });
    }
    return decided({ until: p.until === null ? null : new Date(p.until).toISOString(), lines });
  },
  rows({ payload: p, root, at, until, precision, doneBy }, o, stamp): Change[] {
    return p.lines.flatMap((l, i): Change[] => {
      const of = o.lines[i];
      if (!of) return [];
      const certain = l.lots.length === 1;
      const left = l.lots.map((lot): Change => ({
        in: 'departure',
        id: derivedId(root, `${i} ${lot}`),
        row: {
          lot,
          channel: p.channel,
          customer: p.customer,
          trip: root,
          mg: of.mg,
          pieces: of.pieces,
          how: l.how,
          certain,
          anyOf: certain ? null : derivedId(root, `any ${i}`),
          unattended: p.unattended,
          decided: null,
          site: stamp.book,
          at,
          earliest: timeDoubt({ at, until, precision }).earliest,
          until: o.until ?? until,
        },
      }));
      const about = { name: of.name, at, doneBy: doneBy ?? stamp.person };
      const troubles = of.troubled.map((t) => leavingDeviation(root, `deviation ${i} ${t.lot}`, { ...t, ...about }));
      return [...left, ...troubles];
    });
  },
});
