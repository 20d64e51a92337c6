/** The part of the table that is about decisions, which are checked against the current state. */
export const decisionProblems = {
  'not-releasable': {
    status: 409,
    title: 'This batch cannot be released by rule',
    detail: 'Settle what is open on it, or ask somebody who has the role to release it by exception.',
  },
  'held-by-recall': {
    status: 409,
    title: 'This is on hold for a recall',
    detail: 'Decide on this lot in the recall case. To close the case does not lift the hold.',
  },
  'limit-loosened': {
    status: 422,
    title: 'This lets through what is not let through today',
    detail:
      'For each control point that is less strict than in the plan in force, state why, who validated it, on what and when; for a formula, state why in its note. Or make it as strict again.',
  },
  'all-destroyed': { status: 409, title: 'All of this batch was destroyed', detail: 'If that is wrong, withdraw the decision about it.' },
  'already-closed': {
    status: 409,
    title: 'Already closed',
    detail: 'There is nothing more to do. To change how it was closed, correct that record.',
  },
  'already-lifted': { status: 409, title: 'The hold was already lifted', detail: 'There is nothing more to do.' },
  'refusal-stands': {
    status: 409,
    title: 'These goods were refused',
    detail: 'To use them after all, somebody who decides about affected food accepts the refused goods, signed and with the reason.',
  },
  'not-about-this-food': {
    status: 409,
    title: 'This deviation is not about that food',
    detail: 'Report a deviation about that food and decide there, or put it on hold.',
  },
  'not-for-this-decision': {
    status: 409,
    title: 'Something that was ticked cannot be decided here',
    detail:
      'Remove the tick. A hold is lifted; a recall, another deviation and refused goods are decided on their own pages. What does not add up is put right in the records.',
  },
  'named-food-alone': {
    status: 422,
    title: 'This decision can cover the named food alone',
    detail: 'Choose that it covers this alone. Decide on what was made of it by its own lot.',
  },
  'lot-not-said': { status: 422, title: 'It is about several lots', detail: 'Name the one lot that the amount is of.' },
  'amount-not-said': {
    status: 422,
    title: 'How much of it is not stated',
    detail: 'State the amount: the lot may hold other food as well.',
  },
  'whole-lot-only': { status: 422, title: 'A lot is freed whole', detail: 'Leave the amount out. What is destroyed or returned has one.' },
  'practice-holds-nothing': { status: 422, title: 'This case is a practice and holds nothing', detail: 'Decide in the real case.' },
  'not-held-by-this': { status: 422, title: 'This does not hold that lot', detail: 'State only lots that it holds.' },
  'undecided-food': { status: 409, title: 'Undecided food is on hold', detail: 'Decide about it, or state what stays on hold and why.' },
  'customers-not-reached': {
    status: 409,
    title: 'Not every customer was reached',
    detail: 'Go on calling them, or state who was not reached and why.',
  },
  'not-answered': {
    status: 409,
    title: 'No disposition is recorded',
    detail: 'Record the disposition, or take corrective action and take the reading again. Then close.',
  },
  'already-so': {
    status: 409,
    title: 'Already done',
    detail: 'There is nothing more to do. If the list does not show it, reload the list.',
  },
  'not-the-next-number': {
    status: 409,
    title: 'Somebody approved another version first',
    detail: 'Merge the changes of the newest version into yours, and send it with the next number.',
  },
  'approved-is-fixed': {
    status: 409,
    title: 'An approved version cannot be changed',
    detail: 'Approve a new version. The old one stays unchanged for what was made by it.',
  },
} as const satisfies Record<string, { status: number; title: string; detail: string }>;
