import type { Config } from '../config/index.js';

/** How long one type of ordinary data is kept. */
export interface Kept {
  readonly what: string;
  readonly table: string;
  /** From when its age counts: a column, or an expression of columns. */
  readonly since: string;
  /** What else must be so before it goes. The row's table is `t`. */
  readonly only?: string;
  /** The setting that holds its age in days. */
  readonly days: Extract<keyof Config, `KEEP_${string}`>;
  readonly why: string;
}

/**
 * What is not a record and does not stay for ever: one line a type of data. Nothing that an entry rests on is here, and nothing that shows
 * how an entry came: entries, bodies, words, sendings, seals and photos stay, and so do drafts, devices and PINs while the business does.
 */
export const retention: readonly Kept[] = [
  {
    what: 'inspectors’ viewings',
    table: 'viewing',
    since: 't.at',
    days: 'KEEP_VIEWINGS_DAYS',
    why: 'Evidence of what an authority was shown, and when: six years, as long as most claims about a food can still be brought. No setting makes it less than a year; the database refuses that.',
  },
  {
    what: 'sessions that have ended',
    table: 'session',
    since: 'LEAST(t.expires_at, t.ended_at)',
    only: `NOT EXISTS (SELECT FROM sending s WHERE s.organisation = t.organisation AND s.session = t.id)
       AND NOT EXISTS (SELECT FROM viewing v WHERE v.organisation = t.organisation AND v.session = t.id)`,
    days: 'KEEP_SESSIONS_DAYS',
    why: 'A quarter of a year answers who was signed on at a tablet. A session that sent a record stays with it, since it says how the record came; one that an inspector viewed by, as long as the viewing.',
  },
  {
    what: 'signature tokens that were used or have expired',
    table: 'signature_token',
    since: 't.expires_at',
    days: 'KEEP_SIGNATURE_TOKENS_DAYS',
    why: 'A token holds for two minutes. Who signed, when and in what meaning is inside the record; the token is only there so that it is not used twice, and an expired one is refused anyway. A week is for looking into a signing that failed.',
  },
  {
    what: 'enrolment codes that were used or have expired',
    table: 'enrolment_code',
    since: 't.expires_at',
    days: 'KEEP_ENROLMENT_CODES_DAYS',
    why: 'A code opens nothing after ten minutes, and the device itself says who enrolled it. A month is for asking who had codes made.',
  },
  {
    what: 'set-aside entries that were recorded since',
    table: 'set_aside',
    since: 't.received_at',
    // An id that stands for another record was never recorded with this content.
    only: `t.problem IS DISTINCT FROM 'id-reused' AND EXISTS (SELECT FROM entry e WHERE e.organisation = t.organisation AND e.id = t.entry)`,
    days: 'KEEP_SET_ASIDE_RECORDED_DAYS',
    why: 'The record is in the ledger, so the copy of the first try says nothing more. A month is for seeing why it was set aside at first.',
  },
  {
    what: 'set-aside entries that were never recorded',
    table: 'set_aside',
    since: 't.received_at',
    days: 'KEEP_SET_ASIDE_DAYS',
    why: 'It may be the only copy of what somebody typed on a tablet that is gone. Two years is past the shelf life of what a bakehouse makes and past every audit of the year in which it was made.',
  },
  {
    what: 'security events',
    table: 'security_event',
    since: 't.at',
    days: 'KEEP_SECURITY_EVENTS_DAYS',
    why: 'Thirteen months answer who was at the door a year ago. What is younger than thirty days the database keeps, whatever is set.',
  },
  {
    what: 'counts of wrong PINs',
    table: 'guess_count',
    since: 't.last_at',
    only: 't.good_at IS NULL',
    days: 'KEEP_WRONG_GUESSES_DAYS',
    why: 'A count slows nobody after twelve hours.',
  },
  {
    what: 'places where somebody’s PIN was right',
    table: 'guess_count',
    since: 't.last_at',
    only: 't.good_at IS NOT NULL',
    days: 'KEEP_KNOWN_PLACES_DAYS',
    why: 'A person who was right there before is not slowed by what others guess there. After a quarter of a year without signing on there, that advantage is given up with the trace of where they were.',
  },
];
