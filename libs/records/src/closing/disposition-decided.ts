import { canonicalInteger, decided, id, observed, refuse, upcaster, type Refused, moreThanNothing } from '@bakehouse/kernel';
import * as z from 'zod';
import { amountProblem, doesAway, foodNeeds, foodOf, leavingRows, moreThanThereWas } from '../control/done-away.js';
import { letsUse } from '../control/holds-release.js';
import { lotNames } from '../control/lot-names.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';
import { countingNeeds } from '../control/unsettled.js';
import { defineKind } from '../base/kind.js';
import type { Change, Need, Row, State } from '../base/state.js';
import { covers, dispositionChoice, sawWhat } from '../rows/control.js';
import { finding } from '../rows/baking.js';
import { subjectsAt, subjectsNeeds } from '../standing/concern.js';
import { besideNeeds, namedBeside } from '../standing/named-beside.js';
import { pastLifeIdNeeds } from '../standing/past-life.js';
import { reworkNeeds } from '../standing/rework.js';
import { keepsNeeds } from '../standing/use-by.js';
import { seenBy } from '../standing/told.js';
import { beyondNeeds, beyondNow, beyondRows, goneBeyond } from './gone-beyond.js';
import { aboutNeeds, notAbout } from './decided-food.js';

const decision = { deviation: id, disposition: dispositionChoice, quantity: observed.nullable() };
const outcome = { subject: id, mg: canonicalInteger.nullable(), pieces: z.int().nullable() };

/**
 * The disposition of the food of a deviation, or of one lot that came of it. Signed, with its reason: to use the whole of it lets it leave by rule again,
 * and what came of it too where the decision covers that. An amount says that it is about a part only, and then the rest stays held. What is destroyed,
 * fed to animals or returned leaves the house with the decision, by the lot that it was, whatever is decided about anything else.
 */
export const dispositionDecided = defineKind({
  name: 'disposition-decided',
  version: 3,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'I decide this disposition of the food',
  permission: 'decide.exception',
  phrase: 'A disposition was decided',
  official: 'Disposition',
  words: ['note'],
  payload: z.strictObject({
    ...decision,
    /** A lot that came of what the deviation is about; null for what it is about. */
    lot: id.nullable(),
    covers,
    /** What else holds the food, worked out of the records, that the decision is about as well. */
    concerns: z.array(z.string().min(1).max(120)).max(50),
  }),
  upcast: {
    1: upcaster(z.strictObject(decision), (same) => ({
      ...same,
      lot: null,
      covers: letsUse(same.disposition) ? 'what-came-of-it' : 'this-alone',
    })),
    2: upcaster(z.strictObject({ ...decision, lot: id.nullable(), covers }), (same) => ({ ...same, concerns: [] })),
  },
  outcome: z.strictObject({
    ...outcome,
    /** The lots that it takes out of the house. */
    leaves: z.array(id),
    saw: sawWhat,
    /** What else held it, as it stood. */
    findings: z.array(finding),
    beyond: z.array(goneBeyond),
  }),
  outcomeVersion: 5,
  /**
   * Before it said which lots leave, what was done away with was what it was about; before version 3 it did not keep the readings and dates that it was
   * signed on, before version 4 it was about its deviation alone, and before version 5 nobody asked what a correction no longer accepts.
   */
  upcastOutcome: {
    1: upcaster(z.strictObject(outcome), (same) => ({ ...same, leaves: [same.subject] })),
    2: upcaster(z.strictObject({ ...outcome, leaves: z.array(id) }), (same) => ({ ...same, saw: [] })),
    3: upcaster(z.strictObject({ ...outcome, leaves: z.array(id), saw: sawWhat }), (same) => ({ ...same, findings: [] })),
    4: upcaster(z.strictObject({ ...outcome, leaves: z.array(id), saw: sawWhat, findings: z.array(finding) }), (same) => ({
      ...same,
      beyond: [],
    })),
  },
  examples: [
    {
      deviation: '0190a6d0-7b3c-7000-8000-0000000000f5',
      lot: null,
      disposition: 'destroyed',
      covers: 'this-alone',
      concerns: [],
      quantity: { figure: '12', unit: 'piece' },
    },
  ],
  needs: (p) => [
    { in: 'deviation', id: p.deviation },
    { in: 'disposition', by: 'deviation', value: p.deviation },
    ...(p.lot === null ? [] : [{ in: 'lot', id: p.lot } satisfies Need]),
  ],
  then(p, state) {
    const deviation = state.get('deviation', p.deviation);
    const food = deviation && p.lot === null ? foodNeeds(state, deviation.subjectType, deviation.subject) : [];
    if (!deviation || food.some((need) => !state.knows(need))) return food;
    const about = aboutFood(p.lot, deviation, state).map((f) => f.lot.id);
    const beside = besideNeeds(state, p, p.lot ?? deviation.subject);
    const named = p.lot === null ? [] : aboutNeeds(state, deviation, p.lot);
    return [
      ...food,
      ...named,
      ...quantityNeeds(state, p.quantity, about),
      ...seeNeeds(state, p.lot, deviation),
      ...beside,
      ...about.flatMap((lot) => beyondNeeds(state, lot)),
    ];
  },
  decide({ payload: p, root, at }, state, { previous }) {
    const deviation = state.get('deviation', p.deviation);
    if (!deviation) return refuse('unknown-deviation', 'payload.deviation');
    if (p.lot !== null && !state.get('lot', p.lot)) return refuse('unknown-lot', 'payload.lot');
    const other =
      p.lot === null || statesAgain(p, previous?.payload) ? null : notAbout(state, deviation, { lot: p.lot, concerns: p.concerns }, at);
    if (other) return other;
    const food = aboutFood(p.lot, deviation, state);
    const amount = moreThanNothing(
      quantityOf(state, p.quantity, { lots: food.map((f) => f.lot), at }, 'payload.quantity'),
      'payload.quantity',
    );
    if (!amount.ok) return amount;
    if (!letsUse(p.disposition) && p.covers === 'what-came-of-it') return refuse('named-food-alone', 'payload.covers', aloneOnly);
    const leaving = doesAway(p.disposition) ? leavingLots(p, food) : { ok: true as const, lots: [] };
    if (!leaving.ok) return leaving;
    const [only, ...others] = food;
    const tooMuch =
      letsUse(p.disposition) && only && others.length === 0
        ? moreThanThereWas(only.lot, amount.value, acceptedBefore(state, p, root))
        : null;
    const problem = tooMuch ?? leaving.lots.map((lot) => amountProblem(lot, amount.value)).find((one) => one !== null);
    const subject = p.lot ?? deviation.subject;
    const beside = namedBeside(p, { state, subject, at });
    if (!beside.ok) return beside;
    const saw = seenBy(state, deviation, p.lot === null ? [] : subjectsAt(state, p.lot));
    const leaves = leaving.lots.map((lot) => lot.id);
    const row = {
      deviation: p.deviation,
      subject,
      disposition: p.disposition,
      covers: p.covers,
      ...amount.value,
      saw,
      findings: [...beside.findings],
      at,
    };
    const beyond = previous ? food.flatMap((f) => beyondNow(state, f.lot, { id: root, ...row })) : [];
    return problem ?? decided({ subject, ...amount.value, leaves, saw, findings: [...beside.findings], beyond });
  },
  rows: ({ payload: p, root, at, doneBy }, o, { book: site, person }): Change[] => [
    {
      in: 'disposition',
      id: root,
      row: {
        deviation: p.deviation,
        subject: o.subject,
        disposition: p.disposition,
        covers: p.covers,
        pieces: o.pieces,
        mg: o.mg,
        saw: o.saw,
        findings: o.findings,
        at,
      },
    },
    ...beyondRows(root, o.beyond, doneBy ?? person),
    ...leavingRows(p.disposition, o.leaves, { root, at, mg: o.mg, pieces: o.pieces, site, amount: 'amount-at-site' }),
  ],
});

/** Whether a correction is about the food that was decided on before: what would be refused today can be put right, and frees nothing more. */
const statesAgain = (p: Naming, before?: Naming): boolean =>
  before?.lot === p.lot && before.deviation === p.deviation && p.concerns.every((one) => before.concerns.includes(one));

/** What other decisions about the same deviation accepted of the same food for use. */
const acceptedBefore = (state: State, { deviation, lot }: Naming, root: string) =>
  state
    .find('disposition', 'deviation', deviation)
    .filter((d) => d.id !== root && letsUse(d.disposition) && d.subject === (lot ?? state.get('deviation', deviation)?.subject));

interface Naming {
  readonly deviation: string;
  readonly lot: string | null;
  readonly concerns: readonly string[];
}

/** What has to be looked for to keep what somebody who signs has seen. */
function seeNeeds(state: State, lot: string | null, deviation: Row<'deviation'>): Need[] {
  const { subject, lot: used } = deviation;
  const rework = deviation.type === 'rework-against-rule' ? reworkNeeds(state, subject) : [];
  const named = lot === null ? [] : subjectsNeeds(state, lot);
  const subjects = lot !== null && named.every((need) => state.knows(need)) ? subjectsAt(state, lot) : [];
  return [
    ...named,
    ...[subject, ...subjects].flatMap((s) => countingNeeds(state, s)),
    ...(used === null ? keepsNeeds(state, subject) : keepsNeeds(state, used)),
    ...pastLifeIdNeeds(state, deviation),
    ...rework,
  ];
}

const aloneOnly = 'this-alone: what was made of it is decided on by its own lot';

type Leaving = Refused | { readonly ok: true; readonly lots: readonly Row<'lot'>[] };

type Food = ReturnType<typeof foodOf>;

/** The food that a decision is about: the lot that it names, or the lots of its deviation. */
function aboutFood(named: string | null, { subjectType, subject }: Row<'deviation'>, state: State): Food {
  if (named === null) return foodOf(state, subjectType, subject);
  const lot = state.get('lot', named);
  return lot ? [{ lot, whole: true }] : [];
}

/** The lots that a decision does away with, where it is clear which they are and how much. */
function leavingLots(p: { lot: string | null; quantity: unknown }, food: Food): Leaving {
  const lots = food.map((f) => f.lot);
  const which = lotNames(lots);
  if (p.quantity !== null && lots.length > 1) return refuse('lot-not-said', 'payload.lot', `the lot that it was: ${which}`);
  if (p.quantity === null && food.some((f) => !f.whole))
    return refuse('amount-not-said', 'payload.quantity', `how much of it: ${which} may hold more than what this is about`);
  return { ok: true, lots };
}
