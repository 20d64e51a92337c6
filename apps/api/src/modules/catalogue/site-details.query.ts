import type { DetailsOfSite, SiteDetails } from '@bakehouse/contracts';
import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { TableRow } from '../../platform/database/index.js';
import type { BookInfo, BookRef } from '../../platform/ledger/index.js';

interface DetailsRow extends Row<'siteDetails'> {
  readonly book: TableRow<'siteDetails'>['book'];
}

const columns = `address, phone, registration, authority, authority_phone AS "authorityPhone", authority_out_of_hours AS "authorityOutOfHours", at`;
const detailsIn = (r: Omit<Row<'siteDetails'>, 'id'> | undefined): SiteDetails => ({
  address: r?.address ?? null,
  phone: r?.phone ?? null,
  registration: r?.registration ?? null,
  authority: r?.authority ? { name: r.authority, phone: r.authorityPhone, outOfHours: r.authorityOutOfHours } : null,
  since: r?.at ?? null,
});

/** Where a site is and whom it informs, as they were written down last up to an instant. */
export async function detailsOfSite(client: ClientBase, { organisation, id }: BookRef, at: string): Promise<SiteDetails> {
  const { rows } = await client.query<Row<'siteDetails'>>(
    `SELECT ${columns} FROM site_details WHERE organisation = $1 AND book = $2 AND at <= $3 ORDER BY at DESC, seq DESC LIMIT 1`,
    [organisation, id, at],
  );
  return detailsIn(rows[0]);
}

/** Each of these sites with where it is and whom it informs, as they were written down last up to an instant. */
export async function detailsOfSites(
  client: ClientBase,
  organisation: string,
  sites: readonly Pick<BookInfo, 'id' | 'name'>[],
  at: string,
): Promise<DetailsOfSite[]> {
  const { rows } = await client.query<DetailsRow>(
    `SELECT d.* FROM unnest($2::uuid[]) s CROSS JOIN LATERAL (
       SELECT book, ${columns}
       FROM site_details d WHERE d.organisation = $1 AND d.book = s AND d.at <= $3 ORDER BY d.at DESC, d.seq DESC LIMIT 1) d`,
    [organisation, sites.map((s) => s.id), at],
  );
  const found = new Map(rows.map((r) => [r.book, r]));
  return sites.map(({ id, name }) => ({ site: id, siteName: name, ...detailsIn(found.get(id)) }));
}
