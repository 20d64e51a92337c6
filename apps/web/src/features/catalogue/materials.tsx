import { materialList, type MaterialList } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { useRoute } from 'wouter';
import { dayText } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { SetUpLink } from '../../shared/set-up-link';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { LinkButton, Screen } from '../../ui';
import { Beside, DataTable, type Column } from '../../ui/table';
import { allergenWords } from './allergen-picker';
import { CatalogueTabs } from './catalogue-tabs';
import { Material } from './material';
import { aboutSpecification } from './specification-words';

type One = MaterialList[number];

/** Everything that is bought, used or made, with what it contains. */
export function Materials() {
  const loaded = useLoaded('/catalogue/materials', materialList);
  const [, params] = useRoute<{ readonly id: string }>('/office/catalogue/material/:id');
  const opened = params?.id;
  const list = (
    <Screen
      title="Materials"
      wide
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
      <Shown of={loaded}>
        {(materials) => (
          <DataTable
            label="Materials"
            find="Find it by name, or by an allergen"
            columns={columns}
            rows={materials}
            keyOf={(m) => m.material}
            to={(m) => office.material(m.material)}
            opened={opened}
            none={
              <>
                No material is on the list yet. Begin with what is bought: flour, water, salt, yeast. <SetUpLink />
              </>
            }
          />
        )}
      </Shown>
    </Screen>
  );
  return <Beside opened={opened} closed={office.materials} list={list} shown={(id) => <Material key={id} id={id} loaded={loaded} />} />;
}

/** Absence is said against checked specifications alone, with the day of the oldest check. */
function containsText({ allergens: { contains, checkedSince } }: One): string {
  if (contains.length === 0) return checkedSince === null ? 'not known' : 'none of the list';
  return `${allergenWords(contains)}${checkedSince === null ? '; else not known' : ''}`;
}

function checkedText({ by, allergens: { notKnown, checkedSince } }: One): string {
  if (checkedSince !== null) return `${dayText(checkedSince)}${by === 'formula' ? ' or after' : ''}`;
  return notKnown.length === 0 ? 'nobody checked it' : `nobody checked ${notKnown.join(', ')}`;
}

const keptText = (m: One): string => [...new Set(m.specifications.filter((s) => s.inForce).map(aboutSpecification))].join(' · or ');

const columns: readonly Column<One>[] = [
  { id: 'name', head: 'Name', text: (m) => m.name },
  { id: 'type', head: 'What it is', text: (m) => phrase(`material.${m.type}`) },
  { id: 'contains', head: 'Contains', text: containsText, look: 'wrap' },
  { id: 'may', head: 'May contain', text: (m) => allergenWords(m.allergens.mayContain), look: 'wrap' },
  { id: 'by', head: 'Said by', text: (m) => m.by, spare: true },
  { id: 'checked', head: 'Checked', text: checkedText, by: (m) => m.allergens.checkedSince, look: 'wrap', spare: true },
  { id: 'kept', head: 'How it is kept', text: keptText, look: 'long', spare: true },
];
