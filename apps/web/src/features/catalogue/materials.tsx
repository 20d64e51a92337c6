import { materialList, type MaterialList } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { useState } from 'react';
import { Link } from 'wouter';
import { office } from '../../shared/office-paths';
import { Empty, Field, LinkButton, Screen } from '../../shared/ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { allergenWords } from './allergen-picker';
import { CatalogueTabs } from './catalogue-tabs';

/** Everything that is bought, used or made, with what it contains. */
export function Materials() {
  const loaded = useLoaded('/catalogue/materials', materialList);
  const [search, setSearch] = useState('');
  return (
    <Screen
      title="Materials"
      back={{ to: office.home, text: 'Office' }}
      actions={
        <LinkButton to={office.materialNew} look="go">
          A new material
        </LinkButton>
      }
    >
      <CatalogueTabs here={office.materials} />
      <Field label="Find it by name, or by an allergen" value={search} onChange={setSearch} />
      <Shown of={loaded}>{(materials) => <Rows all={materials} found={materials.filter((m) => fits(m, search))} />}</Shown>
    </Screen>
  );
}

function Rows({ all, found }: { readonly all: MaterialList; readonly found: MaterialList }) {
  if (all.length === 0) return <Empty>No material is on the list yet. Begin with what is bought: flour, water, salt, yeast.</Empty>;
  if (found.length === 0) return <Empty>Nothing has that name and nothing contains it. Look for part of the word.</Empty>;
  return (
    <ul className="rows">
      {found.map((m) => (
        <li key={m.material}>
          <Link href={office.material(m.material)} className="row">
            <span className="row-main">
              <strong>{m.name}</strong> {phrase(`material.${m.type}`)}
              <br />
              <span className="faint">{aboutMaterial(m)}</span>
            </span>
          </Link>
        </li>
      ))}
    </ul>
  );
}

const fits = (m: MaterialList[number], search: string): boolean =>
  `${m.name} ${aboutMaterial(m)}`.toLowerCase().includes(search.trim().toLowerCase());

/** Storage, life and allergens of everything in force, in one line. */
function aboutMaterial(m: MaterialList[number]): string {
  return [...new Set(m.specifications.filter((s) => s.inForce).map(aboutSpecification))].join(' · or ');
}

/** What a specification says, in one line. */
export function aboutSpecification(s: MaterialList[number]['specifications'][number]): string {
  return [
    phrase(`countedIn.${s.countedIn}`),
    phrase(`storage.${s.storage}`),
    s.lifeDays === null ? undefined : `keeps ${s.lifeDays} days`,
    s.lifeOpenedHours === null ? undefined : `${s.lifeOpenedHours} hours once open`,
    s.densityMgPerMl === null ? undefined : `${s.densityMgPerMl / 1000} g a millilitre`,
    s.contains.length === 0 ? 'contains no allergen of the lists' : `contains ${allergenWords(s.contains)}`,
    s.mayContain.length === 0 ? undefined : `may contain ${allergenWords(s.mayContain)}`,
  ]
    .filter((part) => part !== undefined)
    .join('; ');
}
