import type { PayloadFor } from '@bakehouse/records';
import type { MaterialKey } from '../data/materials.js';
import type { PlaceKey } from '../data/places.js';
import type { Kitchen } from './kitchen.js';
import { celsius, g, type EntryOptions } from './story.js';

const stores = [
  ['dairyFridge', 'fridge-air', '', 1.8, 3.8],
  ['meatFridge', 'fridge-air', '', 1.4, 3.6],
  ['freezer', 'freezer-air', '-', 18.8, 22],
  ['retarder', 'retarder-air', '', 3.2, 4.8],
] as const satisfies readonly (readonly [PlaceKey, string, string, number, number])[];

/** Every store, read twice a day. */
export function storesRead(k: Kitchen, time: string, but: readonly PlaceKey[] = [], options: Partial<EntryOptions> = {}): string[] {
  return stores
    .filter(([place]) => !but.includes(place))
    .map(([place, point, sign, least, most]) =>
      k.read(point, 'place', k.placeId(place), { celsius: `${sign}${k.story.chance.tenths(least, most)}` }, time, {
        ...options,
        instrument: place === 'dairyFridge' ? 'air' : 'p1',
      }),
    );
}

/** The day's clean-down at noon. */
export function cleanedDown(k: Kitchen, also: readonly PlaceKey[] = [], options: Partial<EntryOptions> = {}): string[] {
  return (['mixer', 'table', 'bench', 'coldTable', 'stove', ...also] as const).map((place) =>
    k.story.tell(
      'cleaned-down',
      { place: k.placeId(place), type: 'wet', chemical: 'degreaser, then sanitiser', dilution: '1:50', contactSeconds: 300 },
      k.options('12:00', options),
    ),
  );
}

/** Mondays: the probes in melting ice, and what is really there of what is used most. */
export function probesChecked(k: Kitchen, probes: readonly ('p1' | 'p2' | 'p3')[]): void {
  for (const probe of probes) probeCheck(k, probe, k.story.chance.tenths(-0.3, 0.4), '01:05');
  k.story.tell('instrument-checked', iceCheck(k, 'shopProbe', k.story.chance.tenths(-0.2, 0.4)), {
    at: k.day.ms('07:31'),
    by: 'shop',
    where: 'shop',
  });
}

export function probeCheck(k: Kitchen, probe: 'p1' | 'p2' | 'p3', shown: string, time: string): string {
  return k.story.tell('instrument-checked', iceCheck(k, probe, shown), k.options(time));
}

const iceCheck = (k: Kitchen, probe: 'p1' | 'p2' | 'p3' | 'shopProbe', shown: string): PayloadFor<'instrument-checked'> => ({
  instrument: k.story.instrument[probe],
  way: 'ice',
  shown: celsius(shown),
  at: { pressurePascal: null, altitudeMetres: null },
  tolerance: null,
});

const counted = ['white', 'wholemeal', 'rye', 'sugar', 'butter'] as const satisfies readonly MaterialKey[];

export function weeklyCount(k: Kitchen, but: readonly MaterialKey[] = []): void {
  for (const material of counted) {
    const lot = k.stock.current(material);
    if (lot === null || but.includes(material)) continue;
    const found = Math.max(0, Math.round((k.stock.leftOfCurrent(material) * (1 + k.story.chance.whole(-12, 8) / 1000)) / 10) * 10);
    k.stock.counted(material, found);
    k.story.tell(
      'lot-counted',
      { lot, place: k.placeId(material === 'butter' ? 'dairyFridge' : 'dryStore'), quantity: g(found) },
      k.options('13:10'),
    );
  }
}
