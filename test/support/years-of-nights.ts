import type { ClientBase } from 'pg';

const hex = (n: number): string => n.toString(16).padStart(12, '0');
const plain = (of: string, n: number): string => `0190a6d0-7b3c-7${of}-8000-${hex(n)}`;
const idOf = (of: string, n: string): string => `('0190a6d0-7b3c-7${of}-8000-' || lpad(to_hex(${n}), 12, '0'))::uuid`;

/** The last night, which is the only one with anything open. */
export const lastNight = '2026-12-01';
export const nightNow = `${lastNight}T06:00:00.000Z`;
/** What a night has of each. */
const daily = { flours: 6, doughs: 8, runs: 24, deviations: 2 } as const;

export interface Nights {
  readonly organisation: string;
  readonly site: string;
  /** Batches of the last night. */
  readonly batches: readonly string[];
  /** What came in, and what was made of it, in the last two nights. */
  readonly lots: readonly string[];
  readonly days: number;
}

/**
 * A bakehouse after so many nights, each like the others, as the owner of the tables writes them: goods in, doughs, loads, readings, batches that were
 * released and went out, deviations that were dealt with, holds that were lifted, what stood on the counter and came off. Everything of the nights before
 * the last two is over; so what a screen of the last night shows is the same however many there were.
 */
export async function fillNights(owner: ClientBase, days: number): Promise<Nights> {
  const [organisation, site] = [plain('0ff', 1), plain('0fe', 1)];
  await owner.query("INSERT INTO organisation (id, name, created_at) VALUES ($1, 'Nights', now())", [organisation]);
  await owner.query("INSERT INTO book (organisation, id, type, name, zone) VALUES ($1, $2, 'site', 'Bench', 'Europe/London')", [
    organisation,
    site,
  ]);
  for (const text of [...bakedIn(organisation, site, days), ...controlledIn(organisation, site, days)]) await owner.query(text);
  const batches = Array.from({ length: daily.runs }, (_, i) => plain('004', i));
  const lots = ['001', '002'].flatMap((of) => Array.from({ length: 12 }, (_, i) => plain(of, i)));
  return { organisation, site, batches, lots, days };
}

/** Numbers go up into the past, so that the last night's are the same however many there were. */
const nights = (days: number, each: number): string => `generate_series(0, ${days - 1}) d, generate_series(0, ${each - 1}) i`;
const at = (time: string): string => `(timestamptz '${lastNight}T${time}:00Z' - d * interval '1 day')`;
const n = (each: number): string => `(d * ${each} + i)`;
const [flour, dough, run, batch, load] = ['001', '002', '003', '004', '005'];
const ofDough = idOf(dough, '(d * 8 + i / 3)');
const [product, station] = [idOf('0ae', 'i'), idOf('0ad', 'i % 3')];

type Columns = Readonly<Record<string, string>>;
const writing = (organisation: string, site: string, days: number) => (table: string, each: number, id: string, columns: Columns, where = 'true'): string =>
  `INSERT INTO ${table} (organisation, book, id, entry, seq, ${Object.keys(columns).join(', ')})
   SELECT '${organisation}'::uuid, '${site}'::uuid, ${id}, ${id}, 1, ${Object.values(columns).join(', ')} FROM ${nights(days, each)} WHERE ${where}`; // prettier-ignore

function bakedIn(organisation: string, site: string, days: number): string[] {
  const row = writing(organisation, site, days);
  const { flours, doughs, runs } = daily;
  const here = `'${site}'::uuid`;
  const lot = (each: number, id: string, name: string, type: string, of: Columns): string =>
    row('lot', each, id, { material: idOf('0aa', 'i'), name, type: `'${type}'`, code_state: "'on-it'", ...of });
  const flow = (each: number, id: string, of: Columns): string =>
    row('flow', each, id, { how: "'weighed'", certain: 'true', day: `(${of['at'] ?? ''})::date`, ...of });
  const [lotId, doughId, runId, batchId] = [idOf(flour, n(flours)), idOf(dough, n(doughs)), idOf(run, n(runs)), idOf(batch, n(runs))];
  const day = `(date '${lastNight}' - d)`;
  return [
    row('delivery', 1, idOf('006', 'd'), { note: "'N'", unattended: 'false', received_at: at('01:00') }),
    lot(flours, lotId, "'Flour ' || i", 'received', { code: "'L' || d", delivery: idOf('006', 'd'), mg: '25000000', at: at('01:00') }),
    row('receipt_decision', 1, idOf('010', 'd'), { lot: idOf(flour, 'd * 6'), decision: "'accepted'", at: at('01:05') }),
    row('in_use', flours, idOf('011', n(flours)), { station, site: here, material: idOf('0aa', 'i'), lot: lotId, name: "'Flour'", at: at('01:10'), beside: 'false' }),
    row('emptied', flours, idOf('012', n(flours)), { station, lot: lotId, at: `${at('01:09')} + interval '1 day'`, left_mg: '0' }, 'd > 0'),
    lot(doughs, doughId, "'Dough ' || i", 'made', { mg: '4000000', at: at('01:30') }),
    row('make', doughs, doughId, {
      formula: idOf('0ab', 'i'), formula_version: idOf('0ac', 'i'), formula_name: "'Dough'", type: "'dough'", station, site: here, bake_day: day, at: at('01:30'),
    }),
    flow(doughs, idOf('013', n(doughs)), { source: idOf(flour, '(d * 6 + i % 6)'), target: doughId, mg: '4000000', type: "'ingredient'", at: at('01:31') }),
    row('mixed', doughs, idOf('014', n(doughs)), { make: doughId, causes: "'[]'", at: at('01:40') }),
    row('divided', doughs, idOf('015', n(doughs)), { make: doughId, in_mg: '4000000', runs_mg: '3900000', old_dough_mg: '0', scrap_mg: '0', at: at('02:00') }),
    row('clean_down', 3, idOf('016', n(3)), { place: station, type: "'wet'", at: at('04:00') }),
    lot(runs, runId, "'Loaf ' || i", 'run', { pieces: '20', at: at('02:00') }),
    row('run', runs, runId, { make: ofDough, product, product_name: "'Loaf ' || i", pieces: '20', scaling_mg: '65000', steps: "'[]'", at: at('02:00') }),
    flow(runs, idOf('017', n(runs)), { source: ofDough, target: runId, mg: '1300000', type: "'divided'", at: at('02:00') }),
    row('load', runs, idOf(load, n(runs)), { oven: idOf('0af', '1'), bake_day: day, celsius: '230000', minutes: '30', at: at('03:00') }),
    row('load_line', runs, idOf('018', n(runs)), {
      load: idOf(load, n(runs)), run: runId, product, product_name: "'Loaf ' || i", pieces: '20', oven: idOf('0af', '1'), bake_day: day, at: at('03:00'),
    }),
    lot(runs, batchId, "'Loaf ' || i", 'batch', { code: "'B' || d || '-' || i", pieces: '20', at: at('03:40') }),
    row('batch', runs, batchId, {
      run: runId, make: ofDough, formula: idOf('0ab', 'i / 3'), steps: "'[]'", product, product_name: "'Loaf ' || i", code: "'B' || d || '-' || i",
      baked_on: day, pieces: '20', rejects: '0', loads: `jsonb_build_array(${idOf(load, n(runs))})`, site: here, at: at('03:40'),
    }),
    flow(runs, idOf('019', n(runs)), { source: runId, target: batchId, pieces: '20', type: "'batched'", at: at('03:40') }),
    row('release', runs, idOf('01a', n(runs)), { batch: batchId, way: "'by-rule'", rule: '1', findings: "'[]'", at: at('03:41') }),
    row('released_subject', runs, idOf('01b', n(runs)), { batch: batchId, subject: batchId, at: at('03:41') }),
    row('departure', runs, idOf('01c', n(runs)), {
      lot: batchId, channel: "'staff'", trip: idOf('01c', n(runs)), pieces: '20', how: "'counted'", certain: 'true', unattended: 'false', site: here, at: at('05:00'),
    }, 'd > 1'),
    row('on_counter', 6, idOf('01d', n(6)), { lot: idOf(batch, '(d * 24 + i)'), way: "'on'", site: here, at: at('04:30') }),
    row('on_counter', 6, idOf('01e', n(6)), { lot: idOf(batch, '(d * 24 + i)'), way: "'off'", site: here, at: at('16:00') }, 'd > 0'),
  ]; // prettier-ignore
}

function controlledIn(organisation: string, site: string, days: number): string[] {
  const row = writing(organisation, site, days);
  const { runs, deviations } = daily;
  const reading = (each: number, id: string, of: Columns, where?: string): string =>
    row(
      'reading',
      each,
      id,
      {
        measured: "'core'",
        parameter: "'core'",
        unit: "'degC'",
        half_width_milli: '500',
        rule: '1',
        corrected: 'false',
        class: "'ccp'",
        ...of,
      },
      where,
    );
  const about = { subject_type: "'load'", subject: idOf(load, `(d * ${runs} + i)`), point: idOf('0ba', '1') };
  const low = { ...about, point_key: "'core'" };
  const deviation = idOf('020', n(deviations));
  const ofIt = { deviation, subject: about.subject };
  return [
    reading(runs, idOf('021', n(runs)), { ...low, figure: "'96'", milli: '96000', verdict: "'within'", at: at('03:30') }),
    reading(deviations, idOf('022', n(deviations)), { ...low, figure: "'88'", milli: '88000', verdict: "'outside'", at: at('03:20') }),
    row('deviation', deviations, deviation, { ...about, type: "'limit'", class: "'ccp'", summary: "'core temperature'", holds: 'true', at: at('03:20') }),
    row('corrective_action', deviations, idOf('023', n(deviations)), { ...ofIt, type: "'back-in-the-oven'", at: at('03:22') }, 'd > 0'),
    row('disposition', deviations, idOf('024', n(deviations)), { ...ofIt, disposition: "'accepted-for-use'", covers: "'what-came-of-it'", saw: "'[]'", findings: "'[]'", at: at('04:00') }, 'd > 0'),
    row('deviation_closed', deviations, idOf('025', n(deviations)), {
      ...ofIt, self_review: 'false', stays_on_hold: "'[]'", closed_by: idOf('0bb', '1'), at: at('08:00'),
    }, 'd > 0'),
    row('hold', 1, idOf('026', 'd'), { lot: idOf(batch, 'd * 24'), because: "'glass'", at: at('04:10') }),
    row('hold_lifted', 1, idOf('027', 'd'), { hold: idOf('026', 'd'), lot: idOf(batch, 'd * 24'), at: at('04:20') }, 'd > 0'),
    row('returned', 1, idOf('028', 'd'), { lot: idOf(batch, 'd * 24 + 1'), pieces: '1', how: "'counted'", disposition: "'waste'", site: `'${site}'::uuid`, at: at('12:00') }, 'd > 0'),
  ]; // prettier-ignore
}
