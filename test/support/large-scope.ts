import type { ClientBase } from 'pg';

const plain = (of: string, n: number): string => `0190a6d0-7b3c-7${of}-8000-${n.toString(16).padStart(12, '0')}`;
const idOf = (of: string, n: string): string => `('0190a6d0-7b3c-7${of}-8000-' || lpad(to_hex(${n}), 12, '0'))::uuid`;

/** Of each ten lots that came of the flour one is a dough, two are runs and seven are batches. */
const each = { runs: 2, batches: 7 } as const;
export const customers = 300;

export interface LargeScope {
  readonly flour: string;
  /** How many lots the flour reaches, itself among them. */
  readonly lots: number;
  /** How many of its batches left to the last piece, of how many doughs. */
  readonly sent: number;
  /** How many doughs there were; each was divided to the last gram. */
  readonly doughs: number;
  readonly doughsSent: number;
}

/**
 * One flour in a season of a large house, as the owner of the tables writes it: doughs, runs and batches, all but the last tenth of them sent to customers to
 * the last piece. Nothing else is open.
 */
export async function fillScope(owner: ClientBase, organisation: string, site: string, about: number): Promise<LargeScope> {
  const doughs = Math.max(1, Math.round((about - 1) / (1 + each.runs + each.batches)));
  const doughsSent = Math.ceil(doughs * 0.9);
  const flour = plain('0c1', 1);
  const origin = (row: string): string => `'${organisation}'::uuid, '${site}'::uuid, ${row}, ${row}, 1`;
  const material = plain('0ca', 1);
  const began = (d: string): string => `(timestamptz '2026-09-01T02:00:00Z' + ${d} * interval '80 days' / ${doughs})`;
  const d = `generate_series(1, ${doughs}) d`;
  const runs = `${d}, generate_series(0, ${each.runs - 1}) r`;
  const batches = `${d}, generate_series(0, ${each.batches - 1}) b`;
  const [dough, run, batch] = [idOf('0c2', 'd'), idOf('0c3', `d * ${each.runs} + r`), idOf('0c4', `d * ${each.batches} + b`)];
  const ofRun = idOf('0c3', `d * ${each.runs} + b % ${each.runs}`);
  const lot = (from: string, row: string, name: string, type: string, more: string, at: string): string =>
    `INSERT INTO lot (organisation, book, id, entry, seq, material, name, type, code_state, at, code, mg, pieces)
     SELECT ${origin(row)}, '${material}', '${name}', '${type}', 'own', ${at}, ${more} FROM ${from}`;
  const flow = (from: string, row: string, [source, target, type]: readonly string[], amount: string, at: string): string =>
    `INSERT INTO flow (organisation, book, id, entry, seq, source, target, type, how, certain, at, day, mg, pieces)
     SELECT ${origin(row)}, ${source}, ${target}, '${type}', 'weighed', true, ${at}, (${at})::date, ${amount} FROM ${from}`;
  const texts = [
    lot('(SELECT 1) one', `'${flour}'::uuid`, 'Flour', 'received', `'L1', 25000000000, NULL::int`, `timestamptz '2026-09-01T01:00:00Z'`),
    lot(d, dough, 'Dough', 'made', `NULL, 70000, NULL::int`, began('d')),
    `INSERT INTO make (organisation, book, id, entry, seq, formula, formula_version, formula_name, type, station, site, bake_day, at)
     SELECT ${origin(dough)}, '${plain('0cb', 1)}', '${plain('0cc', 1)}', 'Dough', 'dough', '${plain('0cd', 1)}', '${site}'::uuid, ${began('d')}::date, ${began('d')} FROM ${d}`,
    flow(d, idOf('0d1', 'd'), [`'${flour}'::uuid`, dough, 'ingredient'], '70000::bigint, NULL::int', began('d')),
    lot(runs, run, 'Loaf', 'run', `NULL, NULL::bigint, 35`, began('d')),
    `INSERT INTO run (organisation, book, id, entry, seq, make, product, product_name, pieces, scaling_mg, steps, at)
     SELECT ${origin(run)}, ${dough}, '${plain('0ce', 1)}', 'Loaf', 35, 1000, '[]', ${began('d')} FROM ${runs}`,
    flow(runs, idOf('0d2', `d * ${each.runs} + r`), [dough, run, 'divided'], '35000::bigint, NULL::int', began('d')),
    lot(batches, batch, 'Loaf', 'batch', `'B' || d || '-' || b, NULL::bigint, 5`, began('d')),
    `INSERT INTO batch (organisation, book, id, entry, seq, run, make, formula, steps, product, product_name, code, baked_on, pieces, rejects, loads, site, at)
     SELECT ${origin(batch)}, ${ofRun}, ${dough}, '${plain('0cb', 1)}', '[]', '${plain('0ce', 1)}', 'Loaf', 'B' || d || '-' || b, ${began('d')}::date, 5, 0, '[]', '${site}'::uuid, ${began('d')} FROM ${batches}`,
    flow(batches, idOf('0d3', `d * ${each.batches} + b`), [ofRun, batch, 'batched'], 'NULL::bigint, 5', began('d')),
    `INSERT INTO departure (organisation, book, id, entry, seq, lot, channel, customer, trip, pieces, how, certain, unattended, site, at)
     SELECT ${origin(idOf('0d4', `d * ${each.batches} + b`))}, ${batch}, 'dispatch', ${idOf('0cf', `d % ${customers}`)}, ${idOf('0d4', `d * ${each.batches} + b`)}, 5, 'counted', true, false, '${site}'::uuid, ${began('d')} + interval '5 hours'
     FROM ${batches} WHERE d <= ${doughsSent}`,
    `INSERT INTO party (organisation, book, id, entry, seq, party, type, name, vulnerable, unattended, since)
     SELECT ${origin(idOf('0d5', 'u'))}, ${idOf('0cf', 'u')}, 'customer', 'Customer ' || u, false, false, now() FROM generate_series(0, ${customers - 1}) u`,
  ];
  for (const text of texts) await owner.query(text);
  return { flour, lots: 1 + doughs * (1 + each.runs + each.batches), sent: doughsSent * each.batches, doughs, doughsSent };
}
