import type { Role } from '@bakehouse/kernel';
import { madeHere, type PayloadFor } from '@bakehouse/records';
import { contentOf } from '../data/formula-content.js';
import { formulaKeys, formulas } from '../data/formulas.js';
import { bought, materials, type BoughtKey, type MaterialData, type MaterialKey } from '../data/materials.js';
import { parties } from '../data/parties.js';
import { planContent } from '../data/plan.js';
import { people, type PersonKey } from '../data/people.js';
import { authority, instrumentsOf, placesOf, siteData } from '../data/places.js';
import type { Day } from './calendar.js';
import { known, type Story } from './story.js';

const isBought = (key: string): key is BoughtKey => Object.hasOwn(bought, key);
const entriesOf = <K extends string, V>(of: Readonly<Record<K, V>>): [K, V][] => Object.entries(of) as [K, V][]; // a constant object's own entries

/** Who is there and may do what: first of all, and without anybody's signature. */
export function tellPeople(story: Story, day: Day): void {
  let at = day.ms('08:00');
  const options = () => ({ at: (at += 1000), by: 'owner', where: 'organisation' }) as const;
  for (const [key, { name, roles }] of entriesOf<PersonKey, { name: string; roles: readonly Role[] }>(people)) {
    if (key !== 'owner') story.tell('person-joined', {}, { ...options(), id: story.person[key], words: { name } });
    for (const role of roles)
      if (role !== 'inspector')
        story.tell(
          'role-given',
          { person: story.person[key], role, site: key === 'shop' ? story.world.sites.shop : null, until: null },
          options(),
        );
  }
}

/** Places, instruments, materials, suppliers and customers, formulas and the plan: signed by the responsible person. */
export function tellHouse(story: Story, day: Day): void {
  let at = day.ms('08:30');
  const options = (of: { where: 'organisation' | 'bakehouse' | 'shop' }) => ({ at: (at += 1000), by: 'owner' as const, ...of });
  const placeCalled = new Map<string, string>(Object.entries(story.place));
  for (const where of ['bakehouse', 'shop'] as const) {
    const { address, phone, registration } = siteData[where];
    story.tell('site-described', { registration, authority }, { ...options({ where }), words: { address, phone } });
    for (const [key, [name, type, within]] of placesOf[where]) {
      story.tell(
        'place-in-use',
        { name, type, within: within === null ? null : known(placeCalled, within) },
        { ...options({ where }), id: story.place[key] },
      );
    }
    for (const [key, [name, type, halfWidth]] of instrumentsOf[where]) {
      story.tell('instrument-in-use', { name, type, unit: 'degC', halfWidth }, { ...options({ where }), id: story.instrument[key] });
    }
  }
  for (const [key, { name, contactName, phone, ...of }] of entriesOf(parties)) {
    story.tell(
      'party-accepted',
      { party: story.party[key], ...of },
      { ...options({ where: 'organisation' }), words: { name, contactName, phone } },
    );
  }
  for (const key of Object.keys(materials) as MaterialKey[])
    story.tell('specification-accepted', specificationOf(story, key, day.date), options({ where: 'organisation' })); // its own keys
  for (const key of formulaKeys) {
    const { name, type } = formulas[key];
    const payload = { formula: story.formula[key], number: 1, name, type, content: contentOf(key, story) };
    story.version.set(key, story.tell('formula-approved', payload, { ...options({ where: 'organisation' }), by: 'lead' }));
  }
  approvePlan(story, 1, at + 60_000);
}

export function approvePlan(story: Story, version: 1 | 2, at: number): string {
  const payload = { series: story.planSeries, number: version, site: null, content: planContent(story, version) };
  story.plan = story.tell('plan-approved', payload, { at, by: 'lead', where: 'organisation' });
  return story.plan;
}

/** A material's specification as it was checked on a day, with a change where a supplier sends something else. */
export function specificationOf(
  story: Story,
  key: MaterialKey,
  on: string,
  change: Partial<PayloadFor<'specification-accepted'>> = {},
): PayloadFor<'specification-accepted'> {
  const supplier = isBought(key) ? story.party[bought[key].from] : null;
  const { contains, mayContain, ...of }: MaterialData = materials[key];
  return {
    material: story.material[key],
    densityMgPerMl: null,
    ...of,
    contains: [...contains],
    mayContain: [...mayContain],
    checked: madeHere(of.type) ? null : { against: 'supplier-specification', on },
    supplier,
    ...change,
  };
}
