import { latest } from '@bakehouse/kernel';
import type { Row, State } from '../base/state.js';
import { coversNow, openedBy, seenText } from '../control/seen-readings.js';
import { unsettledAt } from '../control/unsettled.js';
import type { Finding } from '../rows/baking.js';
import { firstLoadKeyIn } from './first-load.js';
import { lifeEnds, lifeNeeds } from './life.js';
import { madePastLife } from './past-life.js';
import { reworkTexts, reworkTroubles } from './rework.js';
import { lotUsedPast } from './use-by.js';

type Reading = Row<'reading'>;

/** What a finding is about, so that it can be looked up what stands behind it now. */
export type Found = Pick<Finding, 'code' | 'subject' | 'concern'>;

/**
 * The readings, the use-by date, or the end of the life of what was made here, or what is against the rule about rework, that a finding rests on, as they stand: what somebody who signs in spite of it has seen. Null where it rests on none. Needs
 * `concernNeeds` of what it begins at.
 */
export function seenOf(state: State, found: Found): string | null {
  const { code, subject, concern } = found;
  if (concern === null) return null;
  if (code === 'used-past-use-by') {
    const lot = lotUsedPast(concern);
    return state.knows({ in: 'lot', id: lot }) ? (state.get('lot', lot)?.useBy ?? null) : null;
  }
  if (code === 'used-past-life' || code === 'past-life') {
    const made = madePastLife(concern);
    return made !== null && lifeNeeds(state, made).every((need) => state.knows(need)) ? lifeEnds(state, made) : null;
  }
  if (code === 'rework-against-rule') return reworkTexts(reworkTroubles(state, subject)) || null;
  return seenText(readingsBehind(state, found));
}

/**
 * Whether an exception that was signed in spite of a finding still covers what stands behind it: not where a reading or a date was corrected since, unless a reading
 * that was outside is within now, which is less than was accepted.
 */
export function stillSeen(state: State, found: Found & Pick<Finding, 'saw'>): boolean {
  if (found.saw === null || found.saw === seenOf(state, found)) return true;
  return deviates(found) && coversNow(found.saw, readingsBehind(state, found));
}

const deviates = ({ code }: Found): boolean => code === 'open-deviation' || code === 'closed-deviation';

function readingsBehind(state: State, { code, subject, concern }: Found): readonly Reading[] {
  if (!state.knows({ in: 'reading', by: 'subject', value: subject })) return [];
  const all = state.find('reading', 'subject', subject);
  if (deviates({ code, subject, concern })) return concern === null ? [] : openedBy(all, concern);
  if (code === 'unsettled') return all.filter((r) => r.id === concern);
  if (code === 'weigh-again') return unsettledAt(state, subject).flatMap((u) => (u.doubt?.id === concern ? u.reading : []));
  const key = code === 'first-load-outside' && concern !== null ? firstLoadKeyIn(concern) : null;
  const last = key === null ? undefined : latest(all.filter((r) => r.pointKey === key && r.verdict !== 'not-believable'));
  return last ? [last] : [];
}
