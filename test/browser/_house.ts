import { randomUUID } from 'node:crypto';
import type { SentEnvelope } from '@bakehouse/kernel';
import type { FormulaContent, KindName, PayloadFor, PlanContent, PointContent } from '@bakehouse/records';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { House, type Caller } from '../support/people.js';
import type { TestApp } from '../support/app.js';

/** What a night needs before it begins: places, materials, one formula and a plan, all through the same door as anything else. */
export interface NightHouse {
  readonly house: House;
  readonly lead: Caller;
  readonly baker: { readonly person: string; readonly pin: string };
  readonly products: { readonly tin: string; readonly bloomer: string; readonly bap: string };
  readonly materials: Readonly<Record<'flour' | 'water' | 'salt' | 'yeast' | 'oil' | 'cream' | 'egg', string>>;
  readonly mixer: string;
}

/** Where and how a site counts its days. */
export interface SiteClock {
  readonly zone: string;
  readonly dayStarts: string;
}

/** What a house has besides: oil on its bloomers, by their formula. */
export interface AlsoThere {
  readonly oiled?: boolean;
}

export async function nightHouse(
  t: TestApp,
  site: SiteClock = { zone: 'Europe/London', dayStarts: '00:00' },
  also: AlsoThere = {},
): Promise<NightHouse> {
  const house = await House.found(t, [{ name: 'Bakehouse', ...site }]);
  const lead = await house.signedOn('Ines Pellow', ['food-safety-lead', 'manager']);
  const baker = await house.join('Tam Wick', ['baker']);
  await house.join('Oona Firth', ['baker']);
  const at = new Date(t.clock.now().getTime() - 3_600_000).toISOString();
  const atSite = async <K extends KindName>(kind: K, payload: PayloadFor<K>): Promise<string> =>
    sent(lead, `/sites/${house.site}/entries`, house.entry({ kind, payload, at }));
  const organisation = async <K extends KindName>(kind: K, payload: PayloadFor<K>, signed = false): Promise<string> => {
    const entry = house.entry({ kind, payload, at });
    const signature = signed ? String((await lead.post('/signatures', { pin: lead.pin, entry }).expect(200)).body.signature) : undefined;
    return sent(lead, '/organisation/entries', signature === undefined ? entry : { ...entry, send: { signature } });
  };
  const place = (name: string, type: PayloadFor<'place-in-use'>['type'], within: string | null = null): Promise<string> =>
    atSite('place-in-use', { name, type, within });
  const mixer = await place('Big mixer', 'mixer');
  const deck = await place('Deck oven', 'oven');
  await place('Top deck', 'deck', deck);
  await place('Middle deck', 'deck', deck);
  await place('Bottom deck', 'deck', deck);
  await place('Rack oven', 'oven');
  await place('Prover', 'prover');
  await atSite('instrument-in-use', { name: 'Probe P1', type: 'probe', unit: 'degC', halfWidth: '0.5' });

  const id = (): string => uuidv7(t.clock.now());
  const products = { tin: id(), bloomer: id(), bap: id() };
  const materials = { flour: id(), water: id(), salt: id(), yeast: id(), oil: id(), cream: id(), egg: id() };
  const dough = id();
  const specified: readonly (readonly [string, string, Partial<Specification>])[] = [
    [materials.flour, 'White flour', { contains: ['wheat'], flour: true }],
    [materials.water, 'Water', {}],
    [materials.salt, 'Salt', {}],
    [materials.yeast, 'Fresh yeast', { storage: 'chilled' }],
    [materials.oil, 'Rapeseed oil', { densityMgPerMl: 915 }],
    [materials.cream, 'Cream', { storage: 'chilled', contains: ['milk'], animalOrigin: true }],
    [materials.egg, 'Egg, liquid', { storage: 'chilled', contains: ['eggs'], animalOrigin: true }],
    [dough, 'White dough', { type: 'intermediate', checked: null }],
    [products.tin, 'White tin 800 g', { type: 'product', countedIn: 'pieces', checked: null }],
    [products.bloomer, 'Bloomer 400 g', { type: 'product', countedIn: 'pieces', checked: null }],
    [products.bap, 'Bap', { type: 'product', countedIn: 'pieces', checked: null }],
  ];
  for (const [material, name, over] of specified) await organisation('specification-accepted', specification(material, name, over));
  const formula = randomUUID();
  await organisation(
    'formula-approved',
    {
      formula,
      number: 1,
      name: 'White dough',
      type: 'dough',
      content: oiledWhere(also, whiteDough(materials, products, dough), materials, products),
    },
    true,
  );
  await organisation('plan-approved', { series: randomUUID(), number: 1, site: null, content: plan(formula, products) }, true);
  return { house, lead, baker, products, materials, mixer };
}

async function sent(by: Caller, path: string, entry: SentEnvelope): Promise<string> {
  const { body } = await by.post(path, [entry]).expect(200);
  if (body[0]?.as !== 'recorded') throw new Error(`not recorded: ${JSON.stringify(body)}`);
  return entry.id;
}

type Specification = PayloadFor<'specification-accepted'>;
const specification = (material: string, name: string, over: Partial<Specification>): Specification => ({
  material,
  name,
  type: 'ingredient',
  countedIn: 'mass',
  densityMgPerMl: null,
  storage: 'ambient',
  lifeDays: null,
  lifeOpenedHours: null,
  contains: [],
  mayContain: [],
  checked: { against: 'supplier-specification', on: '2026-01-01' },
  flour: false,
  animalOrigin: false,
  supplier: null,
  ...over,
});

function whiteDough(m: NightHouse['materials'], p: NightHouse['products'], makes: string): FormulaContent {
  const line = (material: string, name: string, mg: number, flour = false) => ({ material, name, mg, flour, madeBy: null });
  const step = (type: FormulaContent['steps'][number]['type'], minutes: number | null, maxMinutes: number | null = null) => ({
    key: type,
    type,
    name: type,
    minutes,
    maxMinutes,
    speed: null,
    target: null,
    place: null,
  });
  const product = (of: string, name: string, scalingMg: number, pieces: number, oven: string, celsius: number, minutes: number) => ({
    product: of,
    name,
    scalingMg,
    pieces,
    bakedMg: Math.round(scalingMg * 0.885),
    lossPpm: 115_000,
    lifeDays: 3,
    dateType: 'best-before' as const,
    ovens: [{ oven, celsius, finishCelsius: null, minutes, steamSeconds: 0 }],
    additions: [],
  });
  return {
    lines: [
      line(m.flour, 'White flour', 25_000_000, true),
      line(m.water, 'Water', 15_000_000),
      line(m.salt, 'Salt', 450_000),
      line(m.yeast, 'Fresh yeast', 500_000),
      line(m.oil, 'Rapeseed oil', 500_000),
    ],
    steps: [step('mix', 10), step('rest', 45), step('divide', null), step('prove', 55, 75), step('bake', null)],
    products: [
      product(p.tin, 'White tin 800 g', 910_000, 20, 'Deck oven', 225, 30),
      product(p.bloomer, 'Bloomer 400 g', 465_000, 12, 'Deck oven', 230, 28),
      product(p.bap, 'Bap', 75_000, 216, 'Rack oven', 205, 11),
    ],
    makes,
    doughCelsius: { min: '24.5', max: '27.5' },
    frictionCelsius: '14',
    minutesSlow: 4,
    minutesFast: 6,
    lifeHours: null,
    rework: null,
  };
}

const oiledWhere = ({ oiled = false }: AlsoThere, content: FormulaContent, m: NightHouse['materials'], p: NightHouse['products']) => ({
  ...content,
  products: content.products.map((one) =>
    oiled && one.product === p.bloomer
      ? { ...one, additions: [{ material: m.oil, name: 'Rapeseed oil', mgPerPiece: null, after: 'before-oven' as const }] }
      : one,
  ),
});

function plan(formula: string, p: NightHouse['products']): PlanContent {
  const point = (key: string, name: string, over: Partial<PointContent> & Pick<PointContent, 'limit'>): PointContent => ({
    key,
    name,
    step: 'bake',
    class: 'ccp',
    hazard: 'Vegetative germs survive the oven',
    formulas: [],
    products: [],
    measured: 'core',
    parameter: 'core temperature',
    holdSeconds: null,
    frequency: 'each-load',
    ifNotMonitored: 'hold',
    ifOutside: 'hold',
    correctiveAction: 'Back in the oven, then read again.',
    basis: 'for this test, no validated limit',
    validated: null,
    ...over,
  });
  const atLeast = (min: string) => ({ type: 'range', min, max: null, unit: 'degC' }) as const;
  return {
    name: 'Bread and rolls',
    scope: 'Bread baked here',
    team: 'Ines',
    pastLife: { opened: 'warn', madeHere: 'warn' },
    points: [
      point('dough', 'Dough temperature', {
        step: 'mix',
        class: 'process-check',
        formulas: [formula],
        measured: 'dough',
        parameter: 'dough temperature',
        frequency: 'each-make',
        ifNotMonitored: 'record',
        ifOutside: 'note',
        limit: { type: 'range', min: '24.5', max: '27.5', unit: 'degC' },
        correctiveAction: 'Colder water next time.',
      }),
      point('tin-core', 'Core of the coldest tin', { products: [p.tin], limit: atLeast('94') }),
      point('bloomer-core', 'Core of the coldest bloomer', { products: [p.bloomer], limit: atLeast('93') }),
      point('bap-core', 'Core of the coldest bap', { products: [p.bap], limit: atLeast('92') }),
      point('chilled', 'Cold goods on arrival', {
        step: 'receive',
        measured: 'between-packs',
        parameter: 'temperature on arrival',
        frequency: 'each-delivery',
        limit: { type: 'range', min: null, max: '8', unit: 'degC' },
        correctiveAction: 'Hold it and decide.',
      }),
    ],
  };
}
