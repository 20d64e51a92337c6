import { inOrder } from '@bakehouse/kernel';
import { concernsBehind, foodOf, heldBy, holdsRelease, namesFood, readingsThatCount, type Row, type TakenBack } from '@bakehouse/records';
import { nameOf, type Lookup } from '../lookup/lookup.js';

export interface DeviationView {
  readonly id: string;
  readonly subjectType: Row<'deviation'>['subjectType'];
  readonly subject: string;
  readonly subjectName: string | null;
  readonly type: Row<'deviation'>['type'];
  readonly class: Row<'deviation'>['class'];
  readonly summary: string | null;
  readonly at: string;
  /** open and holding food; open and answered, or of a type that holds nothing; closed. */
  readonly state: 'holds' | 'open' | 'closed';
  /** The lots that it holds and nobody decided about, closed or not. */
  readonly undecided: readonly Pick<Row<'lot'>, 'id' | 'name'>[];
  /** Why what was undecided when it was closed stays on hold, as somebody said then. */
  readonly whyOnHold: string | null;
  readonly actions: readonly Pick<Row<'correctiveAction'>, 'type' | 'action' | 'at' | 'doneBy'>[];
  readonly dispositions: readonly Pick<Row<'disposition'>, 'disposition' | 'pieces' | 'mg' | 'at'>[];
  readonly selfReview: boolean;
  /** What became of the record that it came from, where that no longer tells of it. */
  readonly takenBack: TakenBack | null;
}

/** One deviation with what was done about it and how it stands. */
export function deviationView(lookup: Lookup, d: Row<'deviation'>): DeviationView {
  const { state, concerns } = lookup;
  const actions = inOrder(state.find('correctiveAction', 'deviation', d.id));
  const dispositions = inOrder(state.find('disposition', 'deviation', d.id));
  const closures = state.find('deviationClosed', 'deviation', d.id);
  const food = foodOf(state, d.subjectType, d.subject).map((f) => f.lot);
  const notCounted = d.subjectType === 'load' && food.some((lot) => lot.type === 'run');
  const begins = food.map((lot) => lot.id);
  const behind = concernsBehind(state, d);
  const undecided = heldBy(state, behind, begins, concerns).map(({ id, name }) => ({ id, name }));
  // Where it is about food that nobody has counted yet, or that this state does not know, the rule says so; else what it holds does.
  const unseen = namesFood(d.subjectType) && (food.length === 0 || notCounted);
  // What follows from the records as they stand, a use past its date or later loads of the day, holds for as long as it reaches something.
  const follows = behind.length > 1 && (undecided.length > 0 || (unseen && d.type === 'expired-lot-used'));
  const itself = holdsRelease(d, actions, readingsThatCount(state, d.subject), dispositions);
  const holds = follows || ((unseen || undecided.length > 0) && itself);
  return {
    id: d.id,
    subjectType: d.subjectType,
    subject: d.subject,
    subjectName: nameOf(lookup, d.subjectType, d.subject),
    type: d.type,
    class: d.class,
    summary: d.summary,
    at: d.at,
    state: closures.length > 0 ? 'closed' : holds ? 'holds' : 'open',
    undecided,
    whyOnHold: closures[0]?.why ?? null,
    actions: actions.map(({ type, action, at, doneBy }) => ({ type, action, at, doneBy })),
    dispositions: dispositions.map(({ disposition, pieces, mg, at }) => ({ disposition, pieces, mg, at })),
    selfReview: closures.some((c) => c.selfReview),
    takenBack: lookup.snapshot.takenBack?.find((t) => t.id === d.id) ?? null,
  };
}

/** Everything that is not closed: what holds food first, then by time. */
export function openDeviations(lookup: Lookup): DeviationView[] {
  const open = inOrder(lookup.snapshot.deviation)
    .map((d) => deviationView(lookup, d))
    .filter((d) => d.state !== 'closed');
  return [...open.filter((d) => d.state === 'holds'), ...open.filter((d) => d.state === 'open')];
}
