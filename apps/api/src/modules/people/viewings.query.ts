import type { Viewings } from '@bakehouse/contracts';
import type { ClientBase } from 'pg';
import type { Columns, Computed, TableRow } from '../../platform/database/index.js';

interface ViewingRow extends Columns<Pick<TableRow<'viewing'>, 'id' | 'at' | 'person' | 'site' | 'what' | 'address' | 'exported'>> {
  readonly person_name: Computed<string | null>;
  readonly site_name: Computed<string | null>;
}

const page = 100;

/** A page of what inspectors were shown and took away, the newest first. */
export async function viewingsBefore(client: ClientBase, organisation: string, before: string | null): Promise<Viewings> {
  const { rows } = await client.query<ViewingRow>(
    `SELECT v.id, v.at, v.person, v.site, v.what, v.address, v.exported, p.name AS person_name, b.name AS site_name FROM viewing v
     LEFT JOIN person p ON p.organisation = $1 AND p.id = v.person LEFT JOIN book b ON b.organisation = $1 AND b.id = v.site
     WHERE v.organisation = $1 AND ($2::uuid IS NULL OR v.id < $2) ORDER BY v.id DESC LIMIT ${page + 1}`,
    [organisation, before],
  );
  const found = rows.slice(0, page).map((r) => ({
    ...{ id: r.id, at: r.at, what: r.what, exported: r.exported, days: daysIn(r.address) },
    person: { id: r.person, name: r.person_name },
    site: r.site === null ? null : { id: r.site, name: r.site_name },
  }));
  return { viewings: found, next: rows.length > page ? (found.at(-1)?.id ?? null) : null };
}

function daysIn(address: string): Viewings['viewings'][number]['days'] {
  const asked = new URLSearchParams(address.slice(address.indexOf('?') + 1));
  const [from, until] = [asked.get('from'), asked.get('until')];
  return from === null && until === null ? null : { from: from ?? until ?? '', until: until ?? from ?? '' };
}
