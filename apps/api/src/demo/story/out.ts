import { dayOfYear } from '@bakehouse/kernel';
import type { PayloadFor } from '@bakehouse/records';
import type { MaterialKey } from '../data/materials.js';
import { cafes, type PartyKey } from '../data/parties.js';
import { onShelf, type Carried } from './carried.js';
import type { Batch, Kitchen } from './kitchen.js';
import { g, pieces } from './story.js';

type SentOut = PayloadFor<'sent-out'>;
export type Channel = SentOut['channel'];
type Drop = readonly [customer: PartyKey, time: string, channel: Channel];

/** The van's way, and who is there when it comes. */
const drops: readonly Drop[] = [
  ['cafeEarly', '05:45', 'dispatch'],
  ['cafeLock', '05:55', 'dispatch'],
  ['cafeStation', '06:05', 'dispatch'],
  ['cafeGarden', '06:20', 'dispatch'],
  ['school', '06:40', 'dispatch'],
  ['farmShop', '06:55', 'dispatch'],
  ['ownShop', '07:10', 'own-shop'],
];

/** Standing orders, pieces a day. The tartlets have a week of their own. */
const orders: Readonly<Partial<Record<PartyKey, Readonly<Partial<Record<MaterialKey, number>>>>>> = {
  cafeEarly: { bloomer: 1, bap: 12, slice: 6, tart: 1 },
  cafeLock: { tin: 2, bloomer: 1, bap: 12, slice: 6, tart: 1, roll: 10 },
  cafeStation: { loaf: 2, bloomer: 1, bap: 12, slice: 6, tart: 1 },
  cafeGarden: { tin: 1, bloomer: 1, bap: 12, slice: 6, tart: 1, baguette: 10 },
  school: { tin: 3, bap: 40 },
  farmShop: { tin: 4, loaf: 5, bap: 24 },
  ownShop: { tin: 4, bloomer: 3, bap: 32, loaf: 4, roll: 12, slice: 8, baguette: 12 },
};

/** What leaves with the van: nobody picks by lot, and today's are what there is. Gives the entries by customer. */
export function vanOut(
  k: Kitchen,
  carried: Carried,
  odds: { readonly tarts?: 'all to the school'; readonly tartletsEach: number },
): Map<PartyKey, string> {
  const entries = new Map<PartyKey, string>();
  for (const [customer, time, channel] of drops) {
    if (customer === 'school' && !k.day.isSchoolDay) continue;
    const wanted = {
      ...orders[customer],
      ...(isCafe(customer) && odds.tartletsEach > 0 ? { tartlet: odds.tartletsEach } : {}),
      ...tartsFor(customer, odds.tarts),
    };
    const lines = Object.entries(wanted).flatMap(([product, count]) => lineOf(k, carried, product as MaterialKey, count, time)); // the orders' own keys
    if (lines.length === 0) continue;
    entries.set(
      customer,
      k.story.tell(
        'sent-out',
        { channel, customer: k.story.party[customer], unattended: customer === 'cafeEarly', until: null, lines },
        k.options(time, { doneBy: 'van' }),
      ),
    );
  }
  return entries;
}

const isCafe = (customer: PartyKey): boolean => cafes.some((c) => c === customer);
const tartsFor = (customer: PartyKey, odds: 'all to the school' | undefined): Partial<Record<MaterialKey, number>> =>
  odds === undefined ? {} : { tart: customer === 'school' ? 15 : 0 };

/** One line from what is there and can go by then. Baguettes come out of the freezer unlabelled: any of what lies there. */
function lineOf(k: Kitchen, carried: Carried, product: MaterialKey, count: number, time: string): SentOut['lines'] {
  const notYet = product === 'baguette' || (product === 'tart' && time < '06:25');
  const there = onShelf(carried, product).filter((b) => !(notYet && b.code.startsWith(todaysMark(k))));
  const [first] = there;
  if (!first || count === 0) return [];
  const some = Math.min(count, product === 'baguette' ? there.reduce((sum, b) => sum + b.left, 0) : first.left);
  if (product !== 'baguette' || there.length === 1) {
    first.left -= some;
    return [{ lots: [first.id], quantity: pieces(some), how: 'counted' }];
  }
  const oldest = there.slice(-2);
  for (const b of oldest) b.left -= Math.min(b.left, Math.ceil(some / oldest.length));
  return [{ lots: oldest.map((b) => b.id), quantity: pieces(some), how: 'counted' }];
}

const todaysMark = (k: Kitchen): string => k.day.date.slice(3, 4) + String(dayOfYear(k.day.date)).padStart(3, '0');

/** So many of a batch to one end. */
export function send(k: Kitchen, batch: Batch, channel: Channel, customer: PartyKey | null, count: number, time: string): string {
  batch.left -= count;
  return k.story.tell(
    'sent-out',
    {
      channel,
      customer: customer && k.story.party[customer],
      unattended: false,
      until: null,
      lines: [{ lots: [batch.id], quantity: pieces(count), how: 'counted' }],
    },
    k.options(time),
  );
}

/** The counter's day: on in the morning, off in the afternoon, what was sold by difference; what is left goes its way. */
export function counterDay(k: Kitchen, carried: Carried, of: { readonly tartlets: number }): void {
  const { story } = k;
  for (const product of ['loaf', 'tin', 'bloomer', 'bap', 'roll', 'tart', 'tartlet'] as const) {
    const [batch] = onShelf(carried, product);
    const count = product === 'tartlet' ? of.tartlets : (batch?.left ?? 0);
    if (!batch || count === 0) continue;
    story.tell('put-on-counter', { lot: batch.id, way: 'on', pieces: count }, k.options(product === 'tart' ? '07:30' : '06:50'));
    const left =
      product === 'tartlet' || product === 'tart'
        ? 0
        : Math.min(count, product === 'bap' ? story.chance.whole(4, 14) : story.chance.whole(1, 3));
    story.tell('put-on-counter', { lot: batch.id, way: 'off', pieces: left }, k.options('16:00'));
    if (count > left) send(k, batch, 'counter', null, count - left, '16:02');
    leftOver(k, carried, batch, left);
  }
  const [slices] = onShelf(carried, 'slice');
  if (slices) sliceDay(k, slices);
}

function sliceDay(k: Kitchen, batch: Batch): void {
  const isToday = batch.code.startsWith(todaysMark(k));
  const count = isToday ? Math.max(0, batch.left - 32) : batch.left;
  if (count === 0) return;
  const at = isToday ? '11:00' : '06:52';
  k.story.tell('put-on-counter', { lot: batch.id, way: 'on', pieces: count }, k.options(at));
  k.story.tell('put-on-counter', { lot: batch.id, way: 'off', pieces: 0 }, k.options('16:01'));
  send(k, batch, 'counter', null, count, '16:03');
}

function leftOver(k: Kitchen, carried: Carried, batch: Batch, count: number): void {
  if (count === 0) return;
  if (batch.product === 'bap') send(k, batch, 'donation', 'foodBank', count, '16:20');
  else if (batch.product === 'tin') topUpCrumb(k, carried, [[batch, count]], '16:40');
  else if (batch.product === 'loaf') send(k, batch, 'staff', null, count, '16:20');
  else send(k, batch, batch.product === 'roll' ? 'waste' : 'feed', batch.product === 'roll' ? null : 'pigFarm', count, '16:25');
}

/** Unsold tins, dried and rubbed, into the crumb bin on top of what was there. */
export function topUpCrumb(k: Kitchen, carried: Carried, from: readonly (readonly [Batch, number])[], time: string): string {
  const added: PayloadFor<'vessel-topped-up'>['added'] = from.map(([batch, count]) => ({
    material: k.story.material[batch.product],
    lot: batch.id,
    quantity: pieces(count),
    how: 'counted',
  }));
  const kept = carried.crumb.left;
  carried.crumb.lot = k.story.tell(
    'vessel-topped-up',
    { vessel: k.placeId('crumbBin'), material: k.story.material.crumb, kept: g(Math.max(0, kept)), keptHow: 'estimated', added },
    k.options(time),
  );
  for (const [batch, count] of from) {
    batch.left -= count;
    carried.crumb.left += count * 640;
  }
  return carried.crumb.lot;
}

/** Harbour Steps: what came with the van stands on its counter; baguettes are baked off there. */
export function shopDay(k: Kitchen, carried: Carried): void {
  const { story } = k;
  const options = (time: string) => ({ at: k.day.ms(time), by: 'shop', where: 'shop' }) as const;
  const fridge = (time: string, key: 'fridge-air' | 'freezer-air', place: 'shopFridge' | 'shopFreezer', figure: string) =>
    k.read(key, 'place', k.placeId(place), { celsius: figure }, time, { ...options(time), instrument: 'shopProbe' });
  fridge('07:32', 'fridge-air', 'shopFridge', story.chance.tenths(2.4, 4.2));
  fridge('07:33', 'freezer-air', 'shopFreezer', `-${story.chance.tenths(18.6, 21)}`);
  for (const product of ['tin', 'bloomer', 'bap', 'loaf', 'roll'] as const) {
    const [batch] = onShelf(carried, product);
    if (batch?.code.startsWith(todaysMark(k)))
      story.tell('put-on-counter', { lot: batch.id, way: 'on', pieces: orders.ownShop?.[product] ?? null }, options('07:35'));
    if (batch?.code.startsWith(todaysMark(k)))
      story.tell('put-on-counter', { lot: batch.id, way: 'off', pieces: story.chance.whole(0, 2) }, options('17:00'));
  }
  fridge('17:05', 'fridge-air', 'shopFridge', story.chance.tenths(2.6, 4.4));
  story.tell(
    'cleaned-down',
    { place: k.placeId('shopCounter'), type: 'wet', chemical: 'sanitiser', dilution: '1:50', contactSeconds: 300 },
    options('17:20'),
  );
}
