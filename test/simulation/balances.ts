import { accountOf } from '@bakehouse/graph';
import { leftOf, movementsUntil } from '@bakehouse/records';
import type { TestLedger } from '../support/ledger.js';
import type { Balance } from './model.js';

interface LotRow {
  readonly id: string;
  readonly type: string;
  readonly mg: string | null;
  readonly pieces: number | null;
}

/** What the service's projections say of a lot, by both of its sums: the trace's account, and what the tablet shows as left. In grams. */
export async function balanceByRows({ owner, organisation }: TestLedger, lot: string): Promise<Balance & { readonly left: number | null }> {
  const ask = async <T extends object>(
    text: string,
  ): Promise<(T & { id: string; at: string; mg: number; pieces: null; how: string; anyOf: string | null; among: number })[]> =>
    (await owner.query(text, [organisation, lot])).rows.map((r) => ({
      ...r,
      anyOf: r.any_of ?? null,
      among: 1,
      mg: r.mg === null ? null : Number(r.mg),
      at: new Date(r.at).toISOString(),
    }));
  const [row] = (await owner.query<LotRow>('SELECT id, type, mg, pieces FROM lot WHERE organisation = $1 AND id = $2', [organisation, lot]))
    .rows;
  if (!row) throw new Error(`no lot ${lot}`);
  const uses = await ask<{ type: string; certain: boolean }>('SELECT * FROM flow WHERE organisation = $1 AND source = $2');
  const departures = await ask<{ channel: string; customer: string | null; site: string; certain: boolean }>(
    'SELECT * FROM departure WHERE organisation = $1 AND lot = $2',
  );
  const returned = await ask<{ disposition: string; site: string }>('SELECT * FROM returned WHERE organisation = $1 AND lot = $2');
  const counts = await ask<{ site: string; place: string | null }>(
    'SELECT * FROM counted WHERE organisation = $1 AND lot = $2 ORDER BY at DESC, id DESC',
  );
  const mg = row.mg === null ? null : Number(row.mg);
  const of = { id: lot, type: row.type, mg, pieces: null, outMg: null, lostMg: null };
  const account = accountOf({ lot: of, uses, departures, returned, count: counts[0] ?? null });
  const rows = {
    into: [],
    out: uses,
    departures: departures.map((d) => ({ ...d, toShop: false })),
    returned: returned.map((r) => ({ ...r, fromShop: false })),
    counts,
    counter: [],
    carried: [],
  };
  const left = leftOf(mg, movementsUntil(rows, '9999-12-31T00:00:00.000Z'), 'mg');
  const g = (value: number | null | undefined): number => (value ?? Number.NaN) / 1000;
  return {
    received: g(account.received),
    gone: g(account.gone),
    onHand: g(account.onHand?.amount),
    counted: account.onHand?.by === 'count',
    left: left === null ? null : g(left),
  };
}
