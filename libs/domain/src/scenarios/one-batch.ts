import { bakehouse, celsius, g, materials, night, places, plan, points, whiteVersion } from './bakehouse.js';
import { uuid, type Told } from './driver.js';

/** Twenty tins of one dough, baked in two loads and counted out; readings are for each test to take. */
export function oneBatch(of: { plan?: string | null; product?: string } = {}) {
  const book = bakehouse();
  const { plan: takes = plan, product = materials.tin } = of;
  const bakeDay = '2026-11-25';
  const make = book.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: places.mixer, plan: takes, bakeDay, plannedMg: null },
    { at: night('02:30') },
  ).id;
  const run = uuid(0xe10);
  book.record(
    'divided',
    { make, quantity: null, oldDough: null, scrap: null, runs: [{ run, product, heads: null, pieces: 20, scaling: g('910') }] },
    { at: night('03:30') },
  );
  const loadPayload = {
    oven: places.deckOven,
    deck: null,
    plan: takes,
    bakeDay,
    setting: celsius('225'),
    minutes: 30,
    lines: [{ run, pieces: 10 }],
  };
  const load = (time: string) => book.record('load-in', loadPayload, { at: night(time) }).id;
  const loads = [load('04:10'), load('04:12')] as const;
  const counted = {
    run,
    loads: [...loads],
    pieces: 20,
    rejects: 0,
    code: '6329-TIN',
    bakedOn: bakeDay,
    bestBefore: '2026-11-28',
    useBy: null,
  };
  const countOut = (over: Record<string, unknown> = {}, told: Partial<Told> = {}) =>
    book.record('batch-counted-out', { ...counted, ...over }, { at: night('05:00'), ...told });
  const core = (subject: string, figure: string, time = '04:40', told: Partial<Told> = {}) =>
    book.record(
      'reading-taken',
      {
        subjectType: 'load',
        subject,
        point: points.tinCore,
        measured: 'core',
        parameter: 'core temperature',
        instrument: null,
        value: celsius(figure),
        yes: null,
        seconds: null,
      },
      { at: night(time), ...told },
    );
  const release = (batch: string, time = '05:10') => book.record('released-by-rule', { batch }, { at: night(time) });
  const refused = (batch: string, time = '05:10') => book.refusal('released-by-rule', { batch }, { at: night(time) });
  return { book, make, run, loads, loadPayload, counted, countOut, core, release, refused };
}
