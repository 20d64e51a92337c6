import { annexTwo, usNine, type Allergen } from '@bakehouse/kernel';
import { official, phrase } from '@bakehouse/records';
import { Choice } from '../../ui';

export type Said = 'no' | 'may' | 'yes';
export type Allergens = Readonly<Partial<Record<Allergen, Said>>>;

const options = [
  { value: 'no', text: 'not named' },
  { value: 'may', text: 'may contain' },
  { value: 'yes', text: 'contains' },
] as const;
const inUs: ReadonlySet<Allergen> = new Set(usNine.flatMap((e) => e.members));

/** Every allergen of the EU list by its own name, and whether it stands on the list of the United States too. */
export function AllergenPicker({ value, onChange }: { readonly value: Allergens; readonly onChange: (value: Allergens) => void }) {
  return (
    <>
      {annexTwo.map(({ entry, members }) => (
        <details key={entry} className="section" open={members.some((m) => (value[m] ?? 'no') !== 'no')}>
          <summary>
            {entry}: {saidOf(members, value)}
          </summary>
          {members.map((a) => (
            <Choice
              key={a}
              label={`${official(`allergen.${a}`)}${inUs.has(a) ? ' (EU and US list)' : ' (EU list only)'}`}
              value={value[a] ?? 'no'}
              onChange={(said) => onChange({ ...value, [a]: said })}
              options={options}
            />
          ))}
        </details>
      ))}
    </>
  );
}

function saidOf(members: readonly Allergen[], value: Allergens): string {
  const said = members.flatMap((m) => {
    if (value[m] === 'yes') return [`contains ${phrase(`allergen.${m}`)}`];
    return value[m] === 'may' ? [`may contain ${phrase(`allergen.${m}`)}`] : [];
  });
  return said.length === 0 ? 'nothing marked' : said.join(', ');
}

/** What a specification says, for the picker; and back, in the order of the list. */
export const allergensSaid = (contains: readonly Allergen[], mayContain: readonly Allergen[]): Allergens =>
  Object.fromEntries([...mayContain.map((a) => [a, 'may']), ...contains.map((a) => [a, 'yes'])]);
export const allergensOf = (value: Allergens, said: Said): Allergen[] =>
  annexTwo.flatMap((e) => e.members.filter((m) => (value[m] ?? 'no') === said));
export const allergenWords = (list: readonly Allergen[]): string => list.map((a) => phrase(`allergen.${a}`)).join(', ');
