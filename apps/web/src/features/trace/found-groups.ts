import type { Found } from '@bakehouse/contracts';
import { siteDay } from '@bakehouse/kernel';
import type { NightSite } from '@bakehouse/offline';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { office } from '../../shared/office-paths';
import { dayTime } from '../../shared/trace/words';

export interface FoundOne {
  readonly key: string;
  readonly to: string;
  readonly title: string;
  readonly code: string | null;
  readonly about: string;
}
export interface FoundGroup {
  readonly kind: string;
  readonly of: readonly FoundOne[];
}

const said = (...parts: readonly (string | null)[]): string => parts.filter((p) => p !== null && p !== '').join(', ');

const lotOf = (l: Found['lots'][number], { zone }: NightSite): FoundOne => ({
  key: `lot-${l.id}`,
  to: office.lot(l.id),
  title: l.name,
  code: l.code,
  about: said(phrase(`lot.${l.type}` as PhraseKey), l.supplierName === null ? null : `from ${l.supplierName}`, l.site, dayTime(l.at, zone)),
});

/** A delivery of another site opens with the lot that came: its list shows this site alone. */
function deliveryOf(d: Found['deliveries'][number], site: NightSite): FoundOne[] {
  const own = d.site === site.id;
  if (!own && d.lot === null) return [];
  return [
    {
      key: `delivery-${d.id}`,
      to: own || d.lot === null ? office.delivery(siteDay(d.receivedAt, site), d.id) : office.lot(d.lot),
      title: d.supplierName ?? 'supplier not known',
      code: d.note,
      about: said(d.siteName, dayTime(d.receivedAt, site.zone)),
    },
  ];
}

const partyOf = (p: Found['parties'][number], { zone }: NightSite): FoundOne => ({
  key: `party-${p.party}`,
  to: office.party(p.party),
  title: p.name ?? 'name withheld',
  code: null,
  about: said(
    phrase(`party.${p.type}`),
    p.vulnerable ? 'contact first' : null,
    p.stopped === null ? null : `stopped ${dayTime(p.stopped, zone)}`,
  ),
});

const personOf = (p: Found['people'][number], { zone }: NightSite): FoundOne => ({
  key: `person-${p.id}`,
  to: office.person(p.id),
  title: p.name ?? 'name withheld',
  code: null,
  about: p.leftAt === null ? '' : `left ${dayTime(p.leftAt, zone)}`,
});

/** What was found, by what it is; nothing for what there is none of. */
export function foundGroups(found: Found, site: NightSite): FoundGroup[] {
  const lots = found.lots.filter((l) => l.type !== 'batch');
  return [
    { kind: 'Lots', of: lots.map((l) => lotOf(l, site)) },
    { kind: 'Batches', of: found.lots.filter((l) => l.type === 'batch').map((l) => lotOf(l, site)) },
    { kind: 'Deliveries, by their note', of: found.deliveries.flatMap((d) => deliveryOf(d, site)) },
    { kind: 'Suppliers', of: found.parties.filter((p) => p.type === 'supplier').map((p) => partyOf(p, site)) },
    { kind: 'Customers', of: found.parties.filter((p) => p.type !== 'supplier').map((p) => partyOf(p, site)) },
    { kind: 'People', of: found.people.map((p) => personOf(p, site)) },
  ].filter((group) => group.of.length > 0);
}
