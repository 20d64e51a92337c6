import { derivedId } from '@bakehouse/kernel';
import type { Carried } from './carried.js';
import { specificationOf } from './base.js';
import { cameIn, lineOf, type Numbers } from './goods-in.js';
import type { Kitchen } from './kitchen.js';
import { celsius, deviationOf, g } from './story.js';

/** Found in the porch: warm cream, and egg that is used before anybody knows its code. */
export function porch(k: Kitchen): { cream: string; egg: string } {
  const { story, day } = k;
  const [cream, egg] = [story.newId(day.ms('05:55')), story.newId(day.ms('05:55'))];
  const unnamed = { code: null, codeState: 'not-known-yet', bestBefore: null, useBy: null } as const;
  const delivery = story.tell(
    'delivery-received',
    {
      supplier: null,
      noteNumber: null,
      photo: 'porch.jpg',
      unattended: true,
      lines: [
        {
          ...unnamed,
          lot: cream,
          material: story.material.cream,
          quantity: g(2_000),
          asWritten: '4 × 500 ml',
          temperature: { ...celsius('9.4'), measured: 'between-packs', point: story.point('chilled-in'), instrument: null },
        },
        { ...unnamed, lot: egg, material: story.material.egg, quantity: g(3_000), asWritten: '3 × 1 kg, porch no. 2', temperature: null },
      ],
    },
    k.options('05:58', { words: { note: 'nobody rang; found at the door' } }),
  );
  const named = story.tell('lot-identified', { lot: egg, code: 'E7731', same: null, delivery }, k.options('09:15', { by: 'lead' }));
  const refused = story.tell(
    'receipt-decided',
    { lot: cream, decision: 'refused' },
    k.options('07:40', { by: 'lead', words: { note: 'too warm between the packs' } }),
  );
  const deviation = deviationOf(derivedId(delivery, `reading ${cream}`));
  story.tell(
    'disposition-decided',
    { deviation, lot: null, disposition: 'returned-to-supplier', covers: 'this-alone', concerns: [], quantity: null },
    k.options('11:00', { by: 'lead', words: { note: 'back with the van' } }),
  );
  story.tell(
    'deviation-closed',
    { deviation, staysOnHold: [] },
    k.options('15:00', { by: 'owner', words: { review: 'the dairy will ring the bell' } }),
  );
  k.stock.received('egg', egg, 2_460);
  story.plant('warm-cream', 'Cream at 9.4 °C between the packs, found in the porch, refused', day.date, [delivery, cream, refused]);
  story.plant('unknown-then-named', 'Egg used from the porch before anybody had its code; named E7731 from the note at 09:15', day.date, [
    delivery,
    egg,
    named,
  ]);
  return { cream, egg };
}

/** The wholesaler sends another tin oil: its specification says soya. */
export function otherTinOil(k: Kitchen, numbers: Numbers): void {
  k.story.tell(
    'specification-accepted',
    specificationOf(k.story, 'tinOil', k.day.date, { name: 'Tin oil, with soya lecithin', contains: ['soybeans'] }),
    { at: k.day.ms('10:00'), by: 'lead', where: 'organisation', words: { note: 'sent instead of the usual; same price' } },
  );
  const { lots } = cameIn(k, 'wholesaler', ['tinOil'], '10:20', numbers);
  const before = k.stock.current('tinOil');
  if (before !== null && before !== lots.get('tinOil')) k.stock.drop('tinOil', before);
}

/** 55 lb of malt flour, typed as kilograms and corrected two hours later. */
export function kilogramsForPounds(k: Kitchen, numbers: Numbers): void {
  const { story, day } = k;
  const lot = story.newId(day.ms('09:40'));
  const code = `HM${numbers.next()}`;
  const payload = (unit: 'kg' | 'lb') => ({
    supplier: story.party.flourVan,
    noteNumber: 'DN 0955',
    photo: null,
    unattended: false,
    lines: [{ ...lineOf(k, 'malt', lot, code, null), quantity: { figure: '55', unit }, asWritten: '55 lb' }],
  });
  const wrong = story.tell('delivery-received', payload('kg'), k.options('09:40'));
  const right = story.tell(
    'delivery-received',
    payload('lb'),
    k.options('11:45', { corrects: wrong, words: { reason: 'the note says pounds, not kilograms' } }),
  );
  k.stock.received('malt', lot, 24_948);
  story.plant('kg-for-lb', '55 lb of malt flour typed as 55 kg, then corrected', day.date, [wrong, right, lot]);
}

/** The last of the rye comes out of a bag of 2,000 g that holds more: the balance goes below zero, and a count closes it. */
export function bagOfRye(k: Kitchen): void {
  const lot = k.story.newId(k.day.ms('10:30'));
  k.story.tell(
    'delivery-received',
    {
      supplier: k.story.party.stoneMill,
      noteNumber: null,
      photo: null,
      unattended: false,
      lines: [{ ...lineOf(k, 'rye', lot, 'Q-bag', null), quantity: g(2_000), asWritten: '2 kg bag' }],
    },
    k.options('10:30'),
  );
  k.stock.receivedFirst('rye', lot, 2_000, true);
}

export function bagOfRyeCounted(k: Kitchen): void {
  const lot = k.stock.current('rye');
  if (lot === null) return;
  const counted = k.story.tell(
    'lot-counted',
    { lot, place: null, quantity: g(0) },
    k.options('13:12', { words: { note: 'the bag is empty; it held more than it said' } }),
  );
  k.stock.drop('rye', lot);
  k.story.plant('negative-balance', '2,180 g of rye out of a bag of 2,000 g: 180 g below zero, closed by a count', k.day.date, [
    lot,
    counted,
  ]);
}

/** One sack that has to go first: 16,400 g are left of it when the white dough is weighed in. */
export function oneSack(k: Kitchen, numbers: Numbers): void {
  const lot = k.story.newId(k.day.ms('09:12'));
  k.story.tell(
    'delivery-received',
    {
      supplier: k.story.party.flourVan,
      noteNumber: `DN ${numbers.next()}`,
      photo: null,
      unattended: false,
      lines: [{ ...lineOf(k, 'white', lot, `HM${numbers.next()}`, null), quantity: g(25_120), asWritten: '1 × 25 kg, weighed' }],
    },
    k.options('09:12'),
  );
  k.stock.receivedFirst('white', lot, 25_120);
}

/** A count finds more jam than there can be: 112 % of what came in. */
export function tooMuchJam(k: Kitchen): void {
  const lot = k.stock.current('jam');
  if (lot === null) return;
  const [received, left] = [k.stock.receivedOfCurrent('jam'), k.stock.leftOfCurrent('jam')];
  const found = Math.round(received * 1.12 - (received - left));
  k.stock.counted('jam', found);
  const counted = k.story.tell('lot-counted', { lot, place: k.placeId('dryStore'), quantity: g(found) }, k.options('13:20'));
  k.story.plant('112-percent', 'Used and counted jam come to 112 % of what was received: two pails, one label', k.day.date, [lot, counted]);
}

/** Bread that a café gave back goes into the crumb with our own: the house allows its own stock only. */
export function returnsInCrumb(k: Kitchen, carried: Carried, topUp: (from: Carried['shelf'][number], count: number) => string): void {
  const tins = [...carried.whites].reverse().find((w) => w.batch.product === 'tin' && w.date < k.day.date)?.batch;
  const departure = tins && k.story.departuresOf(tins.id)[0]?.departure;
  if (!tins || departure === undefined) return;
  const back = k.story.tell(
    'goods-returned',
    {
      lot: tins.id,
      departure,
      customer: k.story.party.cafeLock,
      quantity: { figure: '2', unit: 'piece' },
      how: 'counted',
      disposition: 'on-hand',
    },
    k.options('08:10', { doneBy: 'van' }),
  );
  tins.left += 2;
  const crumb = topUp(tins, 2);
  const noted = k.story.tell(
    'deviation-reported',
    { subjectType: 'lot', subject: crumb, class: 'oprp', holds: false },
    k.options('17:10', {
      by: 'lead',
      words: { what: 'two tins that came back from a café are in the crumb bin; only our own unsold bread may be' },
    }),
  );
  k.story.tell(
    'deviation-closed',
    { deviation: noted, staysOnHold: [] },
    k.options('17:30', { by: 'owner', words: { review: 'told everybody; a lidded box for returns by the back door' } }),
  );
  k.story.plant('returns-in-crumb', 'Tins that came back from a café were rubbed into the crumb', k.day.date, [back, crumb, noted]);
}
