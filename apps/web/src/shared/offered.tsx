import type { Permission } from '@bakehouse/kernel';
import { useMemo, type ReactNode } from 'react';
import { OfferedTo, type Offered } from '../ui';
import type { Person } from './people';

const record: readonly Permission[] = ['record'];
/** Where something is done and not only looked at, and who may: any of these. The first that an address begins with. */
const addresses: readonly (readonly [address: RegExp, any: readonly Permission[]])[] = [
  [/^\/table\/(start|read|report|clean-down|probe-check|load\/new)(\/|$)/, record],
  [/^\/table\/hold-place(\/|$)/, ['decide.goods']],
  [/^\/table\/make\/[^/]+\/(weigh|mixed|make-up)$/, record],
  [/^\/table\/run\/[^/]+\/count$/, record],
  [/^\/table\/recent\/./, record],
  [/^\/table\/out\/(send|back|count|move)(\/|$)/, record],
  [/^\/(table|office)\/goods\/(new|unattended)$/, record],
  [/^\/office\/recalls\/new\//, ['decide.recall']],
  [/^\/office\/drafts(\/|$)/, ['manage.formulas']],
  [/^\/office\/setup\/starters(\/|$)/, ['manage.formulas', 'manage.plans']],
  [/^\/office\/plan\/drafts?(\/|$)/, ['manage.plans']],
  [/^\/office\/setup\/(materials|suppliers)-from-a-sheet$/, ['manage.catalogue']],
  [/^\/office\/catalogue\/(new$|parties\/.)/, ['manage.catalogue']],
  [/^\/office\/people\/new$/, ['manage.people']],
  [/^\/office\/people(\/|$)/, ['manage.people', 'manage.access']],
];

const neededAt: Offered['neededAt'] = (to) => addresses.find(([address]) => address.test(to))?.[1] ?? [];

/** What is offered below this is what the person may do with their PIN: where a tapped name is not enough, it is asked for. */
export function OfferedFor({ person: { withPin }, children }: { readonly person: Person; readonly children: ReactNode }) {
  const offered = useMemo<Offered>(() => ({ may: (permission) => withPin.includes(permission), neededAt }), [withPin]);
  return <OfferedTo value={offered}>{children}</OfferedTo>;
}
