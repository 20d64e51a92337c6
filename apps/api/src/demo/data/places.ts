import type { PayloadFor } from '@bakehouse/records';

type PlaceRow = readonly [name: string, type: PayloadFor<'place-in-use'>['type'], within: string | null];
type InstrumentRow = readonly [name: string, type: PayloadFor<'instrument-in-use'>['type'], halfWidth: string];

/** Mill Lane: stations, ovens, stores and vessels. A place within another is named by its key. */
export const places = {
  mixer: ['Spiral mixer 60', 'mixer', null],
  smallMixer: ['Planetary mixer 20', 'mixer', null],
  bench: ['Pastry bench', 'station', null],
  table: ['Make-up table', 'station', null],
  coldTable: ['Meat table', 'station', null],
  stove: ['Custard stove', 'station', null],
  deckOven: ['Deck oven', 'oven', null],
  topDeck: ['Top deck', 'deck', 'deckOven'],
  middleDeck: ['Middle deck', 'deck', 'deckOven'],
  bottomDeck: ['Bottom deck', 'deck', 'deckOven'],
  rackOven: ['Rack oven', 'oven', null],
  prover: ['Prover', 'prover', null],
  retarder: ['Retarder-prover', 'retarder', null],
  chiller: ['Blast chiller', 'chiller', null],
  freezer: ['Freezer', 'freezer', null],
  dairyFridge: ['Dairy fridge', 'fridge', null],
  meatFridge: ['Meat fridge', 'fridge', null],
  dryStore: ['Dry store', 'store', null],
  starterTub: ['Rye starter tub', 'vessel', 'dairyFridge'],
  crumbBin: ['White crumb bin', 'vessel', 'dryStore'],
  counter: ['Counter', 'counter', null],
  hotCase: ['Hot case', 'counter', 'counter'],
  van: ['The van', 'van', null],
} as const satisfies Record<string, PlaceRow>;
export type PlaceKey = keyof typeof places;

/** Harbour Steps: a shop that bakes off. */
export const shopPlaces = {
  shopOven: ['Bake-off oven', 'oven', null],
  shopFreezer: ['Chest freezer', 'freezer', null],
  shopFridge: ['Display fridge', 'fridge', null],
  shopCounter: ['Counter', 'counter', null],
} as const satisfies Record<string, PlaceRow>;
export type ShopPlaceKey = keyof typeof shopPlaces;

/** Name, what it is, and how far from the truth it may be. */
export const instruments = {
  p1: ['Probe P1', 'probe', '0.5'],
  p2: ['Probe P2', 'probe', '0.5'],
  p3: ['Probe P3', 'probe', '0.5'],
  air: ['Dairy fridge sensor', 'fixed-sensor', '1'],
} as const satisfies Record<string, InstrumentRow>;
export const shopInstruments = { shopProbe: ['Probe S1', 'probe', '0.5'] } as const satisfies Record<string, InstrumentRow>;
export type InstrumentKey = keyof typeof instruments | keyof typeof shopInstruments;

export const placesOf: Readonly<Record<'bakehouse' | 'shop', readonly (readonly [PlaceKey | ShopPlaceKey, PlaceRow])[]>> = {
  bakehouse: rowsOf(places),
  shop: rowsOf(shopPlaces),
};
export const instrumentsOf: Readonly<Record<'bakehouse' | 'shop', readonly (readonly [InstrumentKey, InstrumentRow])[]>> = {
  bakehouse: rowsOf(instruments),
  shop: rowsOf(shopInstruments),
};

function rowsOf<K extends string, R>(of: Readonly<Record<K, R>>): [K, R][] {
  return Object.entries(of) as [K, R][]; // a constant object's own entries
}

interface SiteData {
  readonly address: string;
  readonly phone: string;
  readonly registration: string;
}
/** Where each site is. Telephone numbers are ones set aside for fiction. */
export const siteData: Readonly<Record<'bakehouse' | 'shop', SiteData>> = {
  bakehouse: { address: '3 Mill Lane, Quillbrook', phone: '01632 960120', registration: 'QB/F/10442' },
  shop: { address: '11 Harbour Steps, Quillbrook', phone: '01632 960121', registration: 'QB/F/10443' },
};
export const authority = { name: 'Quillbrook District Council, food safety', phone: '01632 960190', outOfHours: '01632 960191' };
