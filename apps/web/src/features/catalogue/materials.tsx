import { materialList, type MaterialList } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { useState } from 'react';
import { Link } from 'wouter';
import { dayText } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { Empty, Field, LinkButton, Screen } from '../../ui';
import { SetUpLink } from '../../shared/set-up-link';
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
        <>
          <LinkButton to={office.materialsSheet}>Import from a sheet</LinkButton>
          <LinkButton to={office.materialNew} look="go">
            A new material
          </LinkButton>
        </>
      }
    >
      <CatalogueTabs here={office.materials} />
      <Field label="Find it by name, or by an allergen" value={search} onChange={setSearch} />
      <Shown of={loaded}>{(materials) => <Rows all={materials} found={materials.filter((m) => fits(m, search))} />}</Shown>
    </Screen>
  );
}

function Rows({ all, found }: { readonly all: MaterialList; readonly found: MaterialList }) {
  if (all.length === 0)
    return (
      <Empty>
        No material is on the list yet. Begin with what is bought: flour, water, salt, yeast. <SetUpLink />
      </Empty>
    );
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

/** How it is kept, by everything in force, and what it contains, in one line. */
function aboutMaterial(m: MaterialList[number]): string {
  const kept = [...new Set(m.specifications.filter((s) => s.inForce).map(aboutSpecification))].join(' · or ');
  return `${kept}; ${contentOf(m)}`;
}

/** What it contains: what is made here by its formulas. Absence is said against checked specifications alone, with the day of the oldest check. */
function contentOf({ by, allergens: { contains, mayContain, notKnown, checkedSince } }: MaterialList[number]): string {
  return [
    contains.length > 0 ? `contains ${allergenWords(contains)}` : undefined,
    mayContain.length > 0 ? `may contain ${allergenWords(mayContain)}` : undefined,
    checkedSince === null
      ? `content not known: ${notKnown.length === 0 ? 'nobody checked it' : `nobody checked ${notKnown.join(', ')}`}`
      : `nothing ${contains.length + mayContain.length > 0 ? 'else ' : ''}of the allergen list, checked on ${dayText(checkedSince)}${by === 'formula' ? ' or after' : ''}`,
  ]
    .filter((part) => part !== undefined)
    .map((part, i) => (i === 0 ? `by ${by} ${part}` : part))
    .join('; ');
}

type Specification = MaterialList[number]['specifications'][number];

/** How a specification says that it is kept, in one line. */
export function aboutSpecification(s: Specification): string {
  return [
    phrase(`countedIn.${s.countedIn}`),
    phrase(`storage.${s.storage}`),
    s.lifeDays === null ? undefined : `keeps ${s.lifeDays} days`,
    s.lifeOpenedHours === null ? undefined : `${s.lifeOpenedHours} hours once open`,
    s.densityMgPerMl === null ? undefined : `${s.densityMgPerMl / 1000} g a millilitre`,
  ]
    .filter((part) => part !== undefined)
    .join('; ');
}

/** What one specification names, and who checked that, against what and when. */
export function saidBy({ contains, mayContain, checked, checkedBy }: Specification): string {
  return [
    contains.length > 0 ? `contains ${allergenWords(contains)}` : undefined,
    mayContain.length > 0 ? `may contain ${allergenWords(mayContain)}` : undefined,
    checked === null
      ? 'nobody has checked it: what it does not name is not known'
      : `${contains.length + mayContain.length > 0 ? 'nothing else' : 'nothing of the allergen list'}, checked against ${phrase(`checkedAgainst.${checked.against}`)} on ${dayText(checked.on)} by ${checkedBy ?? 'somebody whose name is withheld'}`,
  ]
    .filter((part) => part !== undefined)
    .join('; ');
}
