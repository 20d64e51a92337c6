import type { MaterialList } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { useState } from 'react';
import { AllergenSentence } from '../../shared/allergen-sentence';
import { NotOnTicketOf } from '../../shared/not-on-ticket';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Caution, Empty, Screen, Section, StateWord } from '../../ui';
import { Shown, type Loaded } from '../../shared/use-loaded';
import { aboutSpecification, saidBy } from './specification-words';
import { SpecificationForm } from './specification-form';

/** One material: what it is and contains now, and every version there was. */
export function Material({ id, loaded }: { readonly id: string; readonly loaded: Loaded<MaterialList> }) {
  const [writing, setWriting] = useState(false);
  const back = { to: office.materials, text: 'Materials' };
  return (
    <Shown of={loaded}>
      {(materials) => {
        const material = materials.find((m) => m.material === id);
        if (!material)
          return (
            <Screen title="No such material" back={back}>
              <Empty>It is not on the list. Look for it by name among the materials.</Empty>
            </Screen>
          );
        const done = async (): Promise<void> => {
          await loaded.reload();
          setWriting(false);
        };
        if (writing) return <SpecificationForm material={material} onDone={() => void done()} onClose={() => setWriting(false)} />;
        return (
          <Screen
            title={material.name}
            back={back}
            actions={
              <Button needs="manage.catalogue" look="go" onClick={() => setWriting(true)}>
                A new version
              </Button>
            }
          >
            <p>{phrase(`material.${material.type}`)}</p>
            <NotOnTicketOf products={[material.material]} />
            <p>
              <AllergenSentence by={material.by} of={material.allergens} />
            </p>
            <Versions of={material} />
            <Caution />
          </Screen>
        );
      }}
    </Shown>
  );
}

function Versions({ of: { specifications, by } }: { readonly of: MaterialList[number] }) {
  const { site } = useTabletState();
  return (
    <Section title="Specifications, the newest first">
      <ul className="rows">
        {specifications.map((s) => (
          <li key={s.id} className="row">
            <StateWord shape={s.inForce ? 'disc' : 'bar'} tone={s.inForce ? 'good' : 'calm'}>
              {s.inForce ? 'in force' : 'earlier'}
            </StateWord>
            <span className="row-main">
              <strong>{s.name}</strong>
              {s.supplierName === null ? '' : `, from ${s.supplierName}`}
              <br />
              {aboutSpecification(s)}
              {by === 'formula' ? '' : `; ${saidBy(s)}`}
            </span>
            <span className="row-side">from {dayTime(s.since, site.zone)}</span>
          </li>
        ))}
      </ul>
    </Section>
  );
}
