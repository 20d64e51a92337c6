import { snapshotOf } from '@bakehouse/records';
import { lookupOf, heldFood, type HeldFood } from '@bakehouse/views';
import type { Caller } from './people.js';

/** The food on hold that Today shows somebody at a site: worked out of what a tablet is given, as a tablet does. */
export async function heldOnToday(caller: Caller, site: string, now: string): Promise<HeldFood[]> {
  const { rows } = (await caller.get(`/sites/${site}/night`).expect(200)).body;
  return heldFood(lookupOf(snapshotOf(rows), now, 'Europe/London', site));
}

type Against = Pick<HeldFood, 'concerns'> & ({ readonly id: string } | { readonly lot: string });
/** By lot, what speaks against it: which of several ways it came by may be told in another order. */
export const reasons = (all: readonly Against[]): string[] =>
  all
    .map(
      ({ concerns, ...of }) =>
        `${'lot' in of ? of.lot : of.id} ${concerns
          .map((c) => `${c.type} ${c.id}`)
          .sort()
          .join(', ')}`,
    )
    .sort();
