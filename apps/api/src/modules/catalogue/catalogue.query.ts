import type { Row } from '@bakehouse/records';
import type { InstrumentList, PlaceList } from '@bakehouse/contracts';
import type { ClientBase } from 'pg';
import type { Computed, Maybe } from '../../platform/database/index.js';
import { stoppedSince, type BookRef } from '../../platform/ledger/index.js';

export interface SpecificationRow extends Row<'specification'> {
  readonly supplierName: Maybe<Row<'party'>>['name'];
  readonly checkedBy: Maybe<Row<'person'>>['name'];
}
export interface PartyRow extends Row<'party'> {
  readonly stopped: Maybe<Row<'partyStopped'>>['at'];
}
interface PlaceRow extends Row<'place'> {
  readonly outOfUse: Maybe<Row<'placeOut'>>['at'];
}
interface InstrumentRow extends Row<'instrument'> {
  readonly outOfUse: Maybe<Row<'instrumentOut'>>['at'];
  readonly lastCheck: Computed<Pick<Row<'instrumentCheck'>, 'at' | 'way' | 'passed'> | null>;
}

/** Every specification with the names of its supplier and of who checked it as they are known now, the newest first. */
export async function specificationRows(client: ClientBase, organisation: string): Promise<readonly SpecificationRow[]> {
  const { rows } = await client.query<SpecificationRow>(
    `SELECT s.id, s.material, s.name, s.type, s.counted_in AS "countedIn", s.density_mg_per_ml AS "densityMgPerMl", s.storage, s.life_days AS "lifeDays",
            s.life_opened_hours AS "lifeOpenedHours", s.contains, s.may_contain AS "mayContain", s.checked, s.flour, s.animal_origin AS "animalOrigin", s.supplier, p.name AS "supplierName", who.name AS "checkedBy", s.since
     FROM specification s
     LEFT JOIN LATERAL (SELECT name FROM party p WHERE p.organisation = s.organisation AND p.party = s.supplier ORDER BY p.since DESC, p.seq DESC LIMIT 1) p ON true
     LEFT JOIN person who ON who.organisation = s.organisation AND who.id = (s.checked->>'by')::uuid
     WHERE s.organisation = $1 ORDER BY s.since DESC, s.seq DESC`,
    [organisation],
  );
  return rows;
}

/** Every supplier and customer as known now, by name, and since when dealing with them is stopped, if it is. */
export async function partyRows(client: ClientBase, organisation: string): Promise<readonly PartyRow[]> {
  const { rows } = await client.query<PartyRow>(
    `SELECT p.id, p.party, p.type, p.name, p.contact_name AS "contactName", p.phone, p.email, p.address, p.vulnerable, p.unattended, p.since,
            ${stoppedSince('p')} AS stopped
     FROM (SELECT DISTINCT ON (party) * FROM party WHERE organisation = $1 ORDER BY party, since DESC, seq DESC) p ORDER BY lower(p.name), p.party`,
    [organisation],
  );
  return rows;
}

/** Everything of a site that is somewhere and has a name, what is in use first. */
export async function placeRows(client: ClientBase, { organisation, id }: BookRef): Promise<PlaceList> {
  const { rows } = await client.query<PlaceRow>(
    `SELECT * FROM (SELECT p.id, p.name, p.type, p.within, p.since, (SELECT min(o.at) FROM place_out o WHERE o.organisation = p.organisation AND o.place = p.id) AS "outOfUse"
       FROM place p WHERE p.organisation = $1 AND p.book = $2) x ORDER BY "outOfUse" IS NOT NULL, lower(name), id`,
    [organisation, id],
  );
  return rows;
}

/** What a site measures with, what is in use first, each with its last check. */
export async function instrumentRows(client: ClientBase, { organisation, id }: BookRef): Promise<InstrumentList> {
  const { rows } = await client.query<InstrumentRow>(
    `SELECT * FROM (SELECT i.id, i.name, i.type, i.unit, i.half_width_milli AS "halfWidthMilli", i.since,
         (SELECT min(o.at) FROM instrument_out o WHERE o.organisation = i.organisation AND o.instrument = i.id) AS "outOfUse", c.last AS "lastCheck"
       FROM instrument i
       LEFT JOIN LATERAL (SELECT json_build_object('at', to_char(c.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'), 'way', c.way, 'passed', c.passed) AS last FROM instrument_check c
         WHERE c.organisation = i.organisation AND c.instrument = i.id ORDER BY c.at DESC, c.seq DESC LIMIT 1) c ON true
       WHERE i.organisation = $1 AND i.book = $2) x ORDER BY "outOfUse" IS NOT NULL, lower(name), id`,
    [organisation, id],
  );
  return rows;
}
