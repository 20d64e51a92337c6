import type { PayloadFor } from '@bakehouse/records';

interface Party {
  readonly type: PayloadFor<'party-accepted'>['type'];
  readonly name: string;
  readonly contactName: string;
  readonly phone: string;
  readonly vulnerable: boolean;
  readonly unattended: boolean;
}

const supplier = { type: 'supplier', vulnerable: false, unattended: false } as const;
const customer = { type: 'customer', vulnerable: false, unattended: false } as const;

/** Suppliers and customers: all invented. Their telephone numbers lie in the ranges that the United Kingdom's regulator keeps for drama. */
export const parties = {
  stoneMill: { ...supplier, name: 'Quern & Daughter, stone mill', contactName: 'the miller', phone: '01632 960101' },
  flourVan: { ...supplier, name: 'Highmoor Milling, distributor', contactName: 'order desk', phone: '01632 960102' },
  dairyVan: { ...supplier, name: 'Dapple Dairy, milk and eggs', contactName: 'Hesper Lowe', phone: '01632 960103' },
  butcher: { ...supplier, name: 'Marrow & Son, butcher', contactName: 'young Mr Marrow', phone: '01632 960104' },
  nuts: { ...supplier, name: 'Ninefold Nut Imports', contactName: 'quality desk', phone: '01632 960105' },
  wholesaler: { ...supplier, name: 'Odds & Bulk Wholesale', contactName: 'order desk', phone: '01632 960106' },
  cashAndCarry: { ...supplier, name: 'Trolley Hall cash-and-carry', contactName: 'the till', phone: '01632 960107' },
  mains: { ...supplier, name: 'Mains water', contactName: 'duty desk', phone: '01632 960108' },
  cafeLock: { ...customer, name: 'Café at the lock', contactName: 'Ottilie Marsh', phone: '07700 900201' },
  cafeStation: { ...customer, name: 'Platform café', contactName: 'Barnaby Crewe', phone: '07700 900202' },
  cafeGarden: { ...customer, name: 'Café in the walled garden', contactName: 'Isolde Finch', phone: '07700 900203' },
  cafeEarly: { ...customer, name: 'The early café, key in the porch', contactName: 'Rollo Vane', phone: '07700 900204', unattended: true },
  school: { ...customer, name: 'Quillbrook Primary School', contactName: 'the kitchen', phone: '01632 960205', vulnerable: true },
  farmShop: { ...customer, name: 'Thornapple farm shop', contactName: 'Clement Rudd', phone: '07700 900206' },
  ownShop: { ...customer, type: 'own-shop', name: 'Harbour Steps', contactName: 'Elowen Brandt', phone: '01632 960207' },
  foodBank: {
    ...customer,
    type: 'donation',
    name: 'Quillbrook food bank',
    contactName: 'the coordinator',
    phone: '01632 960208',
    vulnerable: true,
  },
  pigFarm: { ...customer, type: 'feed', name: 'Lower Slape pig farm', contactName: 'Nessa Slape', phone: '07700 900209' },
} as const satisfies Record<string, Party>;
export type PartyKey = keyof typeof parties;
export const cafes = ['cafeLock', 'cafeStation', 'cafeGarden', 'cafeEarly'] as const satisfies readonly PartyKey[];
