import { balanceCause, balanceFinding, covers, decidedAmount, hazard, measure, pointLimit, recallLotDecision } from '@bakehouse/records';
import * as z from 'zod';
import { dividedInto } from './divided-into.js';
import { doubtView } from './doubt.js';
import { closedOver, customerNotReached, notifiedInCase } from './recall-notified.js';
import { detailsOfSite } from './site.js';
import { concernView, shelvesView } from './standing.js';

const instant = z.iso.datetime();
const count = z.int().nullable();

export const tracedLot = z
  .object({
    id: z.uuid(),
    name: z.string(),
    type: z.string(),
    code: z.string().nullable(),
    site: z.string(),
    at: instant,
    certain: z.boolean(),
    steps: z.int(),
    /** Parts per 10¹² of the suspect: at least, at most. Null where no share can be said. */
    minPpt: count,
    maxPpt: count,
    mg: count,
    pieces: count,
    heldMinMg: count,
    heldMaxMg: count,
    by: z.object({ from: z.uuid(), how: z.string(), type: z.string(), mg: count, pieces: count }).nullable(),
  })
  .meta({ id: 'TracedLot' });

export const balanceView = z
  .object({
    measure,
    received: count,
    gone: z.int(),
    /** How many entries say that something went, and not how much: then what is gone is at least `gone`, and no more than `unaccounted` is missing. */
    withoutAmount: z.int(),
    /** What may have gone besides, as one of several lots: at most so much. */
    perhaps: z.int(),
    /** What was lost in making it, by what came out. */
    lost: z.int(),
    counted: z.object({ amount: z.int(), goneSince: z.int(), at: instant }).nullable(),
    onHand: z.object({ amount: z.int(), by: z.enum(['count', 'records']) }).nullable(),
    /** Where nobody knows what is left, it is no more than this; null where it is known, or nothing bounds it. */
    atMost: count,
    unaccounted: count,
    accountedBasisPoints: count,
    finding: balanceFinding,
    likelyCauses: z.array(z.object({ cause: balanceCause, amount: z.int(), times: z.int() })),
  })
  .meta({ id: 'Balance' });

/** A balance, of more than one lot where something left as one of them, or several. */
export const balanceLine = z
  .object({ lots: z.array(z.uuid()), name: z.string(), code: z.string().nullable(), balance: balanceView })
  .meta({ id: 'BalanceLine' });

export const lotEnd = z
  .object({
    /** More than one where any of them may be what went. */
    lots: z.array(z.uuid()),
    channel: z.string(),
    customer: z.uuid().nullable(),
    customerName: z.string().nullable(),
    pieces: count,
    mg: count,
    certain: z.boolean(),
    unattended: z.boolean(),
    /** By a signed decision about the food: so much, or all that was left of it then. */
    decided: decidedAmount.nullable(),
    stays: z.boolean().meta({ description: 'it only went to a shop of the house: it is in the house still, or left from there' }),
    at: instant,
    until: instant.nullable(),
    missing: z
      .uuid()
      .nullable()
      .meta({ description: 'the record that says how many came off the counter: these were missing, and no sale of them is recorded' }),
  })
  .meta({ id: 'LotEnd' });

export const contactListEntry = z
  .object({
    order: z.int(),
    party: z.uuid(),
    name: z.string().nullable(),
    contactName: z.string().nullable(),
    phone: z.string().nullable(),
    vulnerable: z.boolean(),
    unattended: z.boolean(),
    certain: z.boolean(),
    pieces: z.int(),
    piecesUnknown: z.boolean(),
    lastAt: instant,
    why: z.string(),
    reached: z.boolean(),
    lines: z.array(
      z.object({
        lots: z.array(z.uuid()),
        name: z.string(),
        code: z.string().nullable(),
        pieces: count,
        mg: count,
        certain: z.boolean(),
        at: instant,
      }),
    ),
    /** What they said is null too where contacts are not shown. */
    calls: z.array(z.object({ party: z.uuid(), answer: z.string(), piecesHeld: count, said: z.string().nullable(), at: instant })),
  })
  .meta({ id: 'ContactListEntry' });

export const counterWindow = z
  .object({
    way: z.string().meta({ description: 'on the counter, or the way out by which it went to nobody whose name is known' }),
    lots: z.array(z.uuid()).meta({ description: 'more than one where any of them may be what went' }),
    name: z.string(),
    code: z.string().nullable(),
    site: z.string(),
    from: instant,
    until: instant.nullable().meta({ description: 'null while it is not recorded as taken off' }),
    pieces: count.meta({ description: 'how many went; while it is on the counter, how many were put there' }),
    sold: count.meta({
      description: 'how many went by the records: fewer than were put out while it is on the counter; null where nobody knows',
    }),
    certain: z.boolean(),
  })
  .meta({ id: 'CounterWindow' });

/** What was read where a lot was baked or cooked. Evidence to judge by; it takes nothing out of the scope. */
export const heatStep = z
  .object({
    lot: z.uuid(),
    parameter: z.string(),
    figure: z.string().nullable(),
    unit: z.string().nullable(),
    seconds: count,
    verdict: z.string(),
    doubt: doubtView.nullable(),
    corrected: z.boolean(),
    limit: pointLimit.nullable(),
    basis: z.string(),
    at: instant,
  })
  .meta({ id: 'HeatStep' });

/** A lot with the same supplier's code, of the same material: it may be the same lot of the supplier's, and is not among those that were asked about. */
export const alikeLot = z
  .object({
    lot: z.uuid(),
    name: z.string(),
    code: z.string().nullable(),
    supplierName: z.string().nullable(),
    site: z.string(),
    at: instant,
  })
  .meta({ id: 'AlikeLot' });

/** A recall case that a lot is in: whether it is open, and how many were told in it. */
export const caseOfLot = z
  .object({
    id: z.uuid(),
    hazard,
    hazardName: z.string(),
    practice: z.boolean(),
    openedAt: instant,
    closedAt: instant.nullable(),
    told: z.int(),
  })
  .meta({ id: 'CaseOfLot' });

/** Everything that one lot leads to, or comes from, with where it went and what does not add up. */
export const traceView = z
  .object({
    suspects: z.array(z.uuid()),
    direction: z.enum(['forward', 'backward']),
    hazard: hazard.nullable(),
    rule: z.string(),
    asOf: z.array(z.object({ book: z.uuid(), name: z.string(), size: z.int() })),
    scopeHash: z.string(),
    lots: z.array(tracedLot),
    cases: z
      .array(caseOfLot)
      .meta({ description: 'the recall cases that the lot is in, the latest first; empty where more than one lot was asked about' }),
    hidden: z.array(z.object({ site: z.string(), lots: z.int() })),
    alike: z.array(alikeLot),
    alikeHidden: z.int().meta({ description: 'how many more have the same code, at sites that the reader may not look at' }),
    ends: z.array(lotEnd),
    contacts: z.array(contactListEntry),
    contactsShown: z
      .boolean()
      .meta({ description: 'whether the list has telephone numbers; a viewer, somebody of one site and a tapped name do not get them' }),
    counter: z.array(counterWindow),
    onHand: z.array(
      z.object({
        lot: z.uuid(),
        name: z.string(),
        code: z.string().nullable(),
        site: z.string().meta({ description: 'every place where some of it is, by name' }),
        inStore: z
          .object({ site: z.string(), amount: count })
          .nullable()
          .meta({ description: 'what of the amount stands neither in a shop of the house nor on a counter; null where all of it does' }),
        /** By the records; null where they cannot say, below zero where more went than there was: it is not surely gone. */
        amount: count,
        measure,
        by: z.enum(['count', 'records']).nullable(),
        /** What speaks against it now, from whichever record; empty where nothing does. */
        concerns: z.array(concernView),
        pastUseBy: z.iso
          .date()
          .nullable()
          .meta({ description: 'the first use-by date that it is past: its own, or that of what is in it; null where there is none' }),
        shelves: shelvesView,
      }),
    ),
    dividedInto: dividedInto.nullable(),
    doesNotAddUp: z.array(balanceLine),
    /** For an organism: the heat steps with their evidence, and why they clear nothing. */
    heat: z.object({ steps: z.array(heatStep), note: z.string().nullable() }),
    suspectBalances: z.array(balanceLine),
    caution: z.string(),
  })
  .meta({ id: 'Trace' });
export type TraceView = z.infer<typeof traceView>;

export const foundLot = z
  .object({
    id: z.uuid(),
    name: z.string(),
    type: z.string(),
    code: z.string().nullable(),
    supplierName: z.string().nullable(),
    at: instant,
    site: z.string(),
    mg: count,
    pieces: count,
  })
  .meta({ id: 'FoundLot' });
export const foundLots = z.array(foundLot).meta({ id: 'FoundLots' });

export const recallView = z
  .object({
    id: z.uuid(),
    openedAt: instant,
    hazard: z.string(),
    hazardName: z.string(),
    practice: z.boolean(),
    said: z.string().nullable(),
    closedAt: instant.nullable(),
    /** Of a closed case: who closed it, and why what it left undecided stays on hold; null where nothing was. */
    closedBy: z.string().nullable(),
    whyOnHold: z.string().nullable(),
    conclusion: z.string().nullable().meta({ description: 'of a closed case: what was found and done' }),
    frozenAt: z.array(z.object({ book: z.uuid(), size: z.int() })),
    scopeHash: z.string(),
    scopeLots: z.int(),
    /** Lots in the house that the case holds now, at every site. */
    held: z.int(),
    /** Which they are: nobody has decided about them yet, and who closes the case states them. No name where the reader may not look. */
    undecided: z.array(z.object({ lot: z.uuid(), name: z.string().nullable(), code: z.string().nullable() })),
    /** What was decided in the case about lots that it held. */
    decisions: z.array(z.object({ lot: z.uuid(), decision: recallLotDecision, covers, pieces: count, mg: count, at: instant })),
    /** Lots that the trace reaches now and the frozen scope does not have, and the other way round; of the first, what the case does not hold yet. */
    changedSince: z.object({ added: z.array(z.uuid()), gone: z.array(z.uuid()), notHeld: z.array(z.uuid()) }),
    /** Of each site that the case reaches, as far as the reader may look: where it is, and the authority to inform first. */
    sites: z.array(detailsOfSite),
    notified: z.array(notifiedInCase),
    /** Customers whom no call has told now: who closes the case states them. */
    notReached: z.array(customerNotReached),
    closedOver: closedOver.nullable(),
    trace: traceView,
  })
  .meta({ id: 'Recall' });
export type RecallView = z.infer<typeof recallView>;
