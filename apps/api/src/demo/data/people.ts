import type { Role } from '@bakehouse/kernel';

/** The people of the invented bakehouse. Their PINs are printed at the first start: this is a demo and nobody's secret. */
export const people = {
  owner: {
    name: 'Morwen Pellow',
    pin: '407163',
    roles: ['manager', 'food-safety-lead'],
    does: 'owns and runs it, looks after the people, signs',
  },
  lead: { name: 'Jago Wick', pin: '629408', roles: ['baker', 'food-safety-lead'], does: 'bakes, and leads food safety' },
  night: { name: 'Senara Teague', pin: '7316', roles: ['baker'], does: 'bakes at night' },
  day: { name: 'Kit Arundel', pin: '5830', roles: ['baker'], does: 'baked by day; left' },
  pastry: { name: 'Loveday Penrose', pin: '9427', roles: ['baker'], does: 'makes the pastry' },
  van: { name: 'Piran Hale', pin: '3862', roles: ['baker'], does: 'drives the van' },
  shop: { name: 'Elowen Brandt', pin: '8159', roles: ['baker'], does: 'keeps the shop at Harbour Steps' },
  counter: { name: 'Wren Tolley', pin: '2748', roles: ['viewer'], does: 'stands at the counter' },
  inspector: { name: 'An inspector', pin: '6038', roles: ['inspector'], does: 'looks only, at Mill Lane, until the access ends' },
} as const satisfies Record<string, { name: string; pin: string; roles: readonly Role[]; does: string }>;

export type PersonKey = keyof typeof people;
