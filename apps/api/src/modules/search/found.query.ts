import { lotCodeKey, type Row } from '@bakehouse/records';
import type { FoundParty, FoundPerson } from '@bakehouse/contracts';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';
import { stoppedSince } from '../../platform/ledger/index.js';

type Delivery = TableRow<'delivery'>;
interface DeliveryRow extends Pick<Delivery, 'id' | 'receivedAt' | 'note' | 'book'> {
  readonly supplierName: Maybe<Row<'party'>>['name'];
  /** The first of what came with it. */
  readonly lot: Maybe<Row<'lot'>>['id'];
}
interface PartyRow extends Pick<Row<'party'>, 'party' | 'type' | 'name' | 'vulnerable'> {
  readonly stopped: Maybe<Row<'partyStopped'>>['at'];
}
interface PersonRow extends Pick<Row<'person'>, 'id' | 'name'> {
  readonly leftAt: Maybe<Row<'personLeft'>>['at'];
}
export interface Sought {
  readonly words: Computed<string>;
  readonly limit: Computed<number>;
}

/** Fewer letters of a number are inside too many of them. */
const leastOfANumber = 3;

/** Anything that has these letters in it, as they stand. */
const inside = (letters: string): string => `%${letters.replace(/[\\%_]/g, '\\$&')}%`;

/** Deliveries of these books by anything inside their note's number, with or without its spaces and dashes; the whole number first, then the newest. */
export async function findDeliveries(
  client: ClientBase,
  organisation: string,
  { words, limit, books }: Sought & { readonly books: readonly Delivery['book'][] },
): Promise<readonly DeliveryRow[]> {
  if (books.length === 0 || lotCodeKey(words).length < leastOfANumber) return [];
  const { rows } = await client.query<DeliveryRow>(
    `SELECT d.id, d.received_at AS "receivedAt", d.note, d.book, p.name AS "supplierName", l.id AS lot
     FROM deliveries_by_note_inside($2, $3, $4::int) WITH ORDINALITY f(id, n)
     CROSS JOIN LATERAL (SELECT * FROM delivery WHERE organisation = $1 AND id = f.id OFFSET 0) d
     LEFT JOIN LATERAL (SELECT name FROM party WHERE organisation = $1 AND party = d.supplier ORDER BY since DESC, seq DESC LIMIT 1) p ON true
     LEFT JOIN LATERAL (SELECT id FROM lot WHERE organisation = $1 AND delivery = d.id ORDER BY id LIMIT 1) l ON true
     ORDER BY f.n`,
    [organisation, words, books, limit],
  );
  return rows;
}

/** Suppliers and customers as known now, by anything in their name. */
export async function findParties(client: ClientBase, organisation: string, { words, limit }: Sought): Promise<readonly FoundParty[]> {
  const { rows } = await client.query<PartyRow>(
    `SELECT p.party, p.type, p.name, p.vulnerable,
            ${stoppedSince('p')} AS stopped
     FROM (SELECT DISTINCT ON (party) party, type, name, vulnerable, since FROM party WHERE organisation = $1 ORDER BY party, since DESC, seq DESC) p
     WHERE p.name ILIKE $2 ORDER BY lower(p.name), p.party LIMIT $3`,
    [organisation, inside(words), limit],
  );
  return rows;
}

/** People by anything in their name, those who left last. */
export async function findPeople(client: ClientBase, organisation: string, { words, limit }: Sought): Promise<readonly FoundPerson[]> {
  const { rows } = await client.query<PersonRow>(
    `SELECT p.id, p.name, l.at AS "leftAt" FROM person p
     LEFT JOIN LATERAL (SELECT min(at) AS at FROM person_left WHERE organisation = $1 AND person = p.id) l ON true
     WHERE p.organisation = $1 AND p.name ILIKE $2 ORDER BY l.at IS NOT NULL, lower(p.name), p.id LIMIT $3`,
    [organisation, inside(words), limit],
  );
  return rows;
}
