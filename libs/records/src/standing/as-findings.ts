import type { State } from '../base/state.js';
import type { Finding } from '../rows/baking.js';
import type { Concern } from './concern.js';
import { seenOf } from './seen.js';
import type { Reaching } from './standings.js';

/** Concerns that reach a lot, as findings: what they begin at, how it was put into words, and what they rest on. */
export const asFindings = (state: State, reaching: readonly Reaching[]): Finding[] =>
  reaching.map(({ concern }) => findingOf(state, concern));

const findingOf = (state: State, { id, type, subject, what }: Concern): Finding => ({
  code: type,
  subject,
  what,
  deviation: type === 'open-deviation' || type === 'closed-deviation' ? id : null,
  concern: id,
  saw: seenOf(state, { code: type, subject, concern: id }),
});
