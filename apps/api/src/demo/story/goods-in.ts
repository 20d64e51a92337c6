import type { PayloadFor } from '@bakehouse/records';
import { bought, materials, type BoughtData, type BoughtKey } from '../data/materials.js';
import type { PartyKey } from '../data/parties.js';
import type { Day } from './calendar.js';
import type { Kitchen } from './kitchen.js';
import { celsius, g } from './story.js';

/** On which weekdays a supplier comes, and when. */
const comes: Readonly<Partial<Record<PartyKey, readonly [days: readonly number[], time: string]>>> = {
  dairyVan: [[1, 2, 3, 4, 5, 6], '06:32'],
  flourVan: [[2], '09:10'],
  stoneMill: [[4], '10:20'],
  butcher: [[1, 3, 5], '11:05'],
  wholesaler: [[1, 4], '08:15'],
  cashAndCarry: [[6], '14:30'],
  nuts: [[3], '07:05'],
};
const keys = Object.keys(bought) as BoughtKey[]; // its own keys

type DeliveryLine = PayloadFor<'delivery-received'>['lines'][number];

export interface Came {
  readonly delivery: string;
  readonly lots: ReadonlyMap<BoughtKey, string>;
}

/** What is low comes in when its supplier comes; on the first day everything does. */
export function goodsIn(k: Kitchen, isFirst: boolean, numbers: Numbers, but: PartyKey | null = null): void {
  for (const [supplier, [days, time]] of Object.entries(comes) as [PartyKey, readonly [readonly number[], string]][]) {
    // its own entries
    if (supplier === but || (!isFirst && !days.includes(k.day.weekday))) continue;
    const wanted = keys.filter((key) => bought[key].from === supplier && (isFirst || k.stock.isLow(key, k.day.plus(4).date)));
    if (wanted.length > 0) cameIn(k, supplier, wanted, isFirst ? '07:30' : time, numbers);
  }
}

/** Counts on, so that no code comes twice. */
export class Numbers {
  private last = 3_100;
  next(): number {
    return (this.last += 7);
  }
}

/** One delivery with a line for each of these. */
export function cameIn(
  k: Kitchen,
  supplier: PartyKey,
  wanted: readonly BoughtKey[],
  time: string,
  numbers: Numbers,
  change: Partial<Record<BoughtKey, Partial<DeliveryLine>>> = {},
): Came {
  const at = k.day.ms(time);
  const lots = new Map<BoughtKey, string>();
  const lines = wanted.map((key) => {
    const of: BoughtData = bought[key];
    const lot = k.story.newId(at);
    const useBy = of.useByDays === undefined ? null : k.day.plus(of.useByDays).date;
    lots.set(key, lot);
    k.stock.received(key, lot, of.grams, useBy);
    return { ...lineOf(k, key, lot, of.code === null ? null : `${of.code}${numbers.next()}`, useBy), ...change[key] };
  });
  const payload = { supplier: k.story.party[supplier], noteNumber: `DN ${numbers.next()}`, photo: null, unattended: false, lines };
  return { delivery: k.story.tell('delivery-received', payload, k.options(time)), lots };
}

export function lineOf(k: Kitchen, key: BoughtKey, lot: string, code: string | null, useBy: string | null): DeliveryLine {
  const of: BoughtData = bought[key];
  const chilled = materials[key].storage === 'chilled';
  return {
    lot,
    material: k.story.material[key],
    code,
    codeState: code === null ? 'none-on-it' : 'on-it',
    quantity: g(of.grams),
    asWritten: of.asWritten,
    bestBefore: useBy === null ? bestBefore(k.day, key) : null,
    useBy,
    temperature: chilled
      ? {
          ...celsius(k.story.chance.tenths(2.1, 5.4)),
          measured: 'between-packs',
          point: k.story.point('chilled-in'),
          instrument: k.story.instrument[k.story.secondProbe],
        }
      : null,
  };
}

const bestBefore = (day: Day, key: BoughtKey): string => day.plus(materials[key].lifeDays ?? 180).date;

/** Water comes out of the wall: one lot without a code or an end. */
export function mainsWater(k: Kitchen): void {
  const lot = k.story.newId(k.day.ms('08:45'));
  k.stock.received('water', lot, Number.MAX_SAFE_INTEGER);
  k.story.tell(
    'delivery-received',
    {
      supplier: k.story.party.mains,
      noteNumber: null,
      photo: null,
      unattended: false,
      lines: [
        {
          lot,
          material: k.story.material.water,
          code: null,
          codeState: 'none-on-it',
          quantity: null,
          asWritten: 'from the main',
          bestBefore: null,
          useBy: null,
          temperature: null,
        },
      ],
    },
    k.options('08:50'),
  );
}

/** Ground almond comes by itself: each lot is for one week of tartlets. */
export function almondsIn(k: Kitchen, code: string, grams: number, asWritten: string): string {
  const lot = k.story.newId(k.day.ms('07:05'));
  k.stock.received('almond', lot, grams);
  k.story.tell(
    'delivery-received',
    {
      supplier: k.story.party.nuts,
      noteNumber: `N ${code}`,
      photo: null,
      unattended: false,
      lines: [
        {
          lot,
          material: k.story.material.almond,
          code,
          codeState: 'on-it',
          quantity: g(grams),
          asWritten,
          bestBefore: k.day.plus(240).date,
          useBy: null,
          temperature: null,
        },
      ],
    },
    k.options('07:05'),
  );
  return lot;
}
