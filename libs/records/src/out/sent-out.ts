import { amountOf, canonicalInteger, decided, derivedId, how, id, instant, instantWithOffset, observed, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';
import { channel } from '../rows/out.js';
import { holdsByItself, lotNeeds, troubleNeeds, troubleWith } from '../standing/lot-trouble.js';

const line = z.strictObject({
  /** One lot where it is known which; several where one or more of them went and nobody knows which ("today's lots of this product"). */
  lots: z.array(id).min(1).max(20),
  quantity: observed.nullable(),
  how,
});
const trouble = z.enum(['held-lot-used', 'refused-lot-used', 'expired-lot-used', 'not-released']);
const lineOutcome = z.strictObject({
  name: z.string(),
  mg: canonicalInteger.nullable(),
  pieces: z.int().nullable(),
  troubled: z.array(z.strictObject({ lot: id, trouble })),
});

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
  outcome: z.strictObject({ until: instant.nullable(), lines: z.array(lineOutcome) }),
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
    ...p.lines.flatMap((l) => l.lots.flatMap((lot): Need[] => [...lotNeeds(lot), { in: 'release', by: 'batch', value: lot }])),
  ],
  then: (p, state) =>
    troubleNeeds(
      state,
      p.lines.flatMap((l) => l.lots),
    ),
  decide({ payload: p, at }, state, { stamp }) {
    if (p.customer !== null && state.find('party', 'party', p.customer).length === 0) return refuse('unknown-party', 'payload.customer');
    const lines: z.infer<typeof lineOutcome>[] = [];
    for (const [i, l] of p.lines.entries()) {
      const lots = l.lots.map((lot) => state.get('lot', lot));
      const unknown = lots.findIndex((lot) => lot === undefined);
      if (unknown >= 0) return refuse('unknown-lot', `payload.lines.${i}.lots.${unknown}`);
      const amount = amountOf(l.quantity, { densityMgPerMl: null }, `payload.lines.${i}.quantity`);
      if (!amount.ok) return amount;
      const released = (lot: string): boolean => state.find('release', 'batch', lot).some((r) => r.at <= at);
      const troubled = lots.flatMap((lot) => {
        if (!lot) return [];
        const found =
          p.channel === 'waste' || p.channel === 'supplier-return'
            ? null
            : (troubleWith(state, lot.id, at, stamp.zone) ??
              (lot.type === 'batch' && !released(lot.id) ? ('not-released' as const) : null));
        return found === null ? [] : [{ lot: lot.id, trouble: found }];
      });
      lines.push({ name: lots[0]?.name ?? '', ...amount.value, troubled });
    }
    return decided({ until: p.until === null ? null : new Date(p.until).toISOString(), lines });
  },
  rows({ payload: p, root, at, doneBy }, o, stamp): Change[] {
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
          at,
          until: o.until,
        },
      }));
      const troubles = of.troubled.map(({ lot, trouble: type }): Change => ({
        in: 'deviation',
        id: derivedId(root, `deviation ${i} ${lot}`),
        row: {
          subjectType: 'lot',
          subject: lot,
          type,
          class: 'ccp',
          point: null,
          summary: of.name,
          holds: type === 'not-released' || holdsByItself(type),
          at,
          doneBy: doneBy ?? stamp.person,
        },
      }));
      return [...left, ...troubles];
    });
  },
});
