import type { PayloadFor } from '@bakehouse/records';
import { at, g, pieces, type Bakehouse } from './bakehouse.js';
import type { Party } from './bakehouse-data.js';

const days = ['2026-11-19', '2026-11-20', '2026-11-21', '2026-11-22', '2026-11-23', '2026-11-24', '2026-11-25'] as const;
type Channel = 'counter' | 'dispatch' | 'stall' | 'sample' | 'donation';

/** Where the 78 good tartlets of each day went: 212 counter, 180 to four cafés, 60 stall, 6 samples, 16 donated, and 72 in the freezer. */
const ends: readonly (readonly (readonly [Channel, number, Party | null])[])[] = [
  [['counter', 78, null]],
  [['counter', 78, null]],
  [
    ['counter', 56, null],
    ['sample', 6, null],
    ['donation', 16, 'foodBank'],
  ],
  [
    ['dispatch', 45, 'cafeA'],
    ['dispatch', 33, 'cafeB'],
  ],
  [
    ['dispatch', 12, 'cafeB'],
    ['dispatch', 45, 'cafeC'],
    ['dispatch', 21, 'cafeD'],
  ],
  [
    ['dispatch', 24, 'cafeD'],
    ['stall', 54, null],
  ],
  [['stall', 6, null]],
];

export interface NutsWeek {
  readonly almond: string;
  readonly batches: readonly string[];
  /** Treacle tarts from the same bowl: before it was cleaned down and after; and white dough from another mixer. */
  readonly beforeCleanDown: string;
  readonly afterCleanDown: string;
  readonly elsewhere: string;
  /** One more make from what is left of the lot, as far as its batch. */
  oneMoreBatch(): Promise<{ lot: string }>;
}

/** Ground almond lot A77, 12,500 g, and the week that used seven times 1,000 g of it. Samples and a count leave 90 g that nobody finds. */
export async function nutsWeek(b: Bakehouse): Promise<NutsWeek> {
  const { baker } = b;
  const almond = b.newId();
  await baker.record(
    'delivery-received',
    {
      supplier: b.party('nuts'),
      noteNumber: 'N 88',
      photo: null,
      unattended: false,
      lines: [b.line('almond', almond, { code: 'A77', quantity: g('12500'), asWritten: '12.5 kg' })],
    },
    { at: at('07:00', '2026-11-18') },
  );
  await baker.record(
    'sent-out',
    { channel: 'sample', customer: null, unattended: false, until: null, lines: [{ lots: [almond], quantity: g('50'), how: 'weighed' }] },
    { at: at('08:00', '2026-11-18') },
  );
  const batches: string[] = [];
  let beforeCleanDown = '';
  for (const [i, day] of days.entries()) {
    const batch = await tartlets(b, almond, day);
    batches.push(batch);
    for (const [channel, count, customer] of ends[i] ?? []) await out(b, batch, channel, count, customer, day);
    if (i === 5) beforeCleanDown = await treacleForTheSchool(b, day);
    await baker.record(
      'cleaned-down',
      { place: b.place('smallMixer'), type: 'allergen-change', chemical: 'sanitiser', dilution: '1:50', contactSeconds: 300 },
      { at: at('12:00', day) },
    );
    await baker.record(
      'cleaned-down',
      { place: b.place('bench'), type: 'wet', chemical: null, dilution: null, contactSeconds: null },
      { at: at('12:05', day) },
    );
  }
  const afterCleanDown = await b.begun('treacle', at('12:30', days[6]), { station: b.place('smallMixer') });
  const elsewhere = await b.begun('white', at('11:00', days[6]), { station: b.place('mixer') });
  await baker.record('lot-counted', { lot: almond, place: null, quantity: g('5360') }, { at: at('13:50', days[6]) });
  return {
    almond,
    batches,
    beforeCleanDown,
    afterCleanDown,
    elsewhere,
    oneMoreBatch: async () => ({ lot: await tartlets(b, almond, days[6], '13:5', 'held') }),
  };
}

/** One frangipane with 1,000 g of the lot, 80 tartlets from it, baked to 75 °C for 30 s: 78 good ones and two rejects. */
async function tartlets(b: Bakehouse, almond: string, day: string, hour = '05:0', then: 'released' | 'held' = 'released'): Promise<string> {
  const { baker } = b;
  const time = (minute: number): string => at(`${hour}${minute}`, day);
  const frangipane = await b.begun('frangipane', time(0), { station: b.place('smallMixer') });
  await baker.record(
    'weighed-in',
    {
      make: frangipane,
      lines: [
        b.into('almond', '1000', almond, 'by-recipe'),
        b.into('butter', '1000'),
        b.into('sugar', '1000'),
        b.into('egg', '900'),
        b.into('flour', '250'),
      ],
    },
    { at: time(1) },
  );
  const filled = await b.begun('tartlets', time(2), { station: b.place('bench') });
  await baker.record(
    'weighed-in',
    {
      make: filled,
      lines: [b.into('pastry', '4812'), b.into('frangipane', '4150', frangipane), b.into('jam', '960'), b.into('flaked', '240')],
    },
    { at: time(3) },
  );
  return baked(
    b,
    filled,
    {
      product: 'tartlet',
      count: 80,
      grams: '123',
      rejects: 2,
      scrap: '322',
      core: b.reading('tartlet-core', 'load', '', '76.2', { seconds: 30 }),
    },
    time(4),
    then,
  );
}

async function treacleForTheSchool(b: Bakehouse, day: string): Promise<string> {
  const make = await b.begun('treacle', at('05:30', day), { station: b.place('smallMixer') });
  const lines = [
    b.into('syrup', '4500'),
    b.into('crumb', '1350'),
    b.into('egg', '540'),
    b.into('butter', '450'),
    b.into('cream', '300'),
    b.into('lemon', '240'),
    b.into('salt', '15'),
  ];
  await b.baker.record('weighed-in', { make, lines: [...lines, b.into('pastry', '3900')] }, { at: at('05:31', day) });
  const batch = await baked(
    b,
    make,
    { product: 'tart', count: 15, grams: '740', rejects: 0, scrap: '195', core: b.reading('tart-core', 'load', '', '96.0') },
    at('05:40', day),
  );
  await out(b, batch, 'dispatch', 15, 'school', day);
  return make;
}

interface Baked {
  readonly product: 'tart' | 'tartlet';
  readonly count: number;
  readonly grams: string;
  readonly rejects: number;
  readonly scrap: string;
  readonly core: PayloadFor<'reading-taken'>;
}

async function baked(
  b: Bakehouse,
  make: string,
  { product, count, grams, rejects, scrap, core }: Baked,
  time: string,
  then: 'released' | 'held' = 'released',
): Promise<string> {
  const { baker } = b;
  const options = { at: time };
  const run = b.newId();
  const bakedOn = time.slice(0, 10);
  await baker.record(
    'divided',
    {
      make,
      quantity: null,
      oldDough: null,
      scrap: g(scrap),
      runs: [{ run, product: b.material(product), heads: null, pieces: count, scaling: g(grams) }],
    },
    options,
  );
  const load = (
    await baker.record(
      'load-in',
      {
        oven: b.place('rackOven'),
        deck: null,
        plan: b.plan,
        bakeDay: bakedOn,
        setting: null,
        minutes: 24,
        lines: [{ run, pieces: count }],
      },
      options,
    )
  ).id;
  await baker.record('reading-taken', { ...core, subject: load }, options);
  const batch = (
    await baker.record(
      'batch-counted-out',
      {
        run,
        loads: [load],
        pieces: count - rejects,
        rejects,
        code: `${bakedOn.slice(8)}-${product}`,
        bakedOn,
        bestBefore: null,
        useBy: null,
      },
      options,
    )
  ).id;
  if (then === 'released') await baker.record('released-by-rule', { batch }, options);
  return batch;
}

async function out(b: Bakehouse, lot: string, channel: Channel, count: number, customer: Party | null, day: string): Promise<void> {
  if (channel === 'counter') {
    await b.baker.record('put-on-counter', { lot, way: 'on', pieces: count }, { at: at('08:00', day) });
    await b.baker.record('put-on-counter', { lot, way: 'off', pieces: 0 }, { at: at('13:00', day) });
  }
  await b.baker.record(
    'sent-out',
    {
      channel,
      customer: customer === null ? null : b.party(customer),
      unattended: customer === 'cafeD',
      until: null,
      lines: [{ lots: [lot], quantity: pieces(count), how: 'counted' }],
    },
    { at: at('08:01', day) },
  );
}
