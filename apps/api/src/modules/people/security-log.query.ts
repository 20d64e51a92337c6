import type { SecurityEvents } from '@bakehouse/contracts';
import { securityWhat } from '@bakehouse/contracts';
import type { ClientBase } from 'pg';
import type { Columns, Computed, TableRow } from '../../platform/database/index.js';

type Event = TableRow<'securityEvent'>;
interface EventRow extends Columns<Pick<Event, 'id' | 'at' | 'what' | 'person' | 'about' | 'device' | 'address' | 'detail'>> {
  readonly person_name: Computed<string | null>;
  readonly about_name: Computed<string | null>;
  readonly device_name: Computed<string | null>;
}
type Notices = SecurityEvents['notices'];

const page = 100;
/** So many wrong PINs in a day are more than a house mistypes. */
const manyWrong = 20;

const events = `SELECT s.id, s.at, s.what, s.person, s.about, s.device, s.address, s.detail,
       p.name AS person_name, coalesce(a.name, b.name) AS about_name, d.name AS device_name
     FROM security_event s
     LEFT JOIN person p ON p.organisation = $1 AND p.id = s.person
     LEFT JOIN person a ON a.organisation = $1 AND a.id = s.about
     LEFT JOIN device b ON b.organisation = $1 AND b.id = s.about
     LEFT JOIN device d ON d.organisation = $1 AND d.id = s.device
     WHERE s.organisation = $1`;

/** A page of what happened at the door, the newest first. */
export async function securityEventsBefore(
  client: ClientBase,
  organisation: string,
  before: string | null,
): Promise<Pick<SecurityEvents, 'events' | 'next'>> {
  const { rows } = await client.query<EventRow>(`${events} AND ($2::uuid IS NULL OR s.id < $2) ORDER BY s.id DESC LIMIT ${page + 1}`, [
    organisation,
    before,
  ]);
  const found = rows.slice(0, page).map(told);
  return { events: found, next: rows.length > page ? (found.at(-1)?.id ?? null) : null };
}

/** A page of what happened at the door at an instant or since, the oldest first: ids are in order of time. `after` is the last one of the page before. */
export async function securityEventsSince(
  client: ClientBase,
  organisation: string,
  since: string,
  after: string | null,
): Promise<SecurityEvents['events']> {
  const { rows } = await client.query<EventRow>(
    `${events} AND s.at >= $2 AND ($3::uuid IS NULL OR s.id > $3) ORDER BY s.id LIMIT ${page}`,
    [organisation, since, after],
  );
  return rows.map(told);
}

function told({ id, at, what, address, detail, ...r }: EventRow): SecurityEvents['events'][number] {
  return {
    id,
    at,
    what: securityWhat.parse(what),
    person: named(r.person, r.person_name),
    about: named(r.about, r.about_name),
    device: named(r.device, r.device_name),
    address,
    detail,
  };
}

const named = (id: string | null, name: string | null): SecurityEvents['events'][number]['person'] => (id === null ? null : { id, name });

/** What somebody who looks after people is told without asking. */
export async function securityNotices(client: ClientBase, organisation: string, now: string): Promise<Notices> {
  const { rows } = await client.query<{
    wrong: Computed<number>;
    addresses: Computed<number>;
    people: Computed<number>;
    since: Computed<string>;
    devices: Computed<number>;
    pins: Computed<number>;
    differ: Computed<number>;
    differed: Computed<string | null>;
  }>(
    `WITH wrong AS (SELECT address, person FROM security_event WHERE organisation = $1 AND what = 'pin-wrong' AND at > $2::timestamptz - interval '1 day')
     SELECT (SELECT count(*)::int FROM wrong) AS wrong, (SELECT count(DISTINCT address)::int FROM wrong) AS addresses, (SELECT count(DISTINCT person)::int FROM wrong) AS people,
       $2::timestamptz - interval '1 day' AS since,
       (SELECT count(*)::int FROM security_event WHERE organisation = $1 AND what = 'device-enrolled' AND at > $2::timestamptz - interval '7 days') AS devices,
       (SELECT count(*)::int FROM security_event WHERE organisation = $1 AND what = 'pin-set' AND about IS DISTINCT FROM person AND at > $2::timestamptz - interval '7 days') AS pins,
       count(*)::int AS differ, max(at) AS differed
     FROM security_event WHERE organisation = $1 AND what = 'history-differs' AND at > $2::timestamptz - interval '30 days'`,
    [organisation, now],
  );
  const found = rows[0];
  return {
    wrongPins:
      found && found.wrong >= manyWrong
        ? { count: found.wrong, addresses: found.addresses, people: found.people, since: found.since }
        : null,
    historyDiffers: found && found.differed !== null ? { count: found.differ, last: found.differed } : null,
    newDevices: found?.devices ?? 0,
    pinsSetByOthers: found?.pins ?? 0,
  };
}
