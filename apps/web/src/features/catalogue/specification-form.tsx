import type { MaterialList } from '@bakehouse/contracts';
import { localDay } from '@bakehouse/kernel';
import { collections, madeHere, phrase } from '@bakehouse/records';
import { systemClock, systemIds } from '@bakehouse/offline';
import { useState } from 'react';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Button, Caution, Choice, Field, Screen } from '../../ui';
import { Affected } from './affected';
import { specificationOf, textOf, troublesOf, type Part, type SpecificationText } from './specification-text';
import { SpecificationAllergens } from './specification-allergens';
import { useProvenAct } from '../../shared/use-proven-act';
import { YesNo } from './yes-no';

interface Props {
  readonly material?: MaterialList[number];
  readonly onDone: (material: string) => void;
  readonly onClose: () => void;
}

const { type, countedIn, storage } = collections.specification.row.shape;
const types = type.options.map((value) => ({ value, text: phrase(`material.${value}`) }));
const counts = countedIn.options.map((value) => ({ value, text: phrase(`countedIn.${value}`) }));
const stores = storage.options.map((value) => ({ value, text: phrase(`storage.${value}`) }));

/** What a material is and contains from now on. What it says reaches lots that came before as well. */
export function SpecificationForm({ material, onDone, onClose }: Props) {
  const newest = material?.specifications[0];
  const [id] = useState(() => material?.material ?? systemIds.entry(systemClock.now()));
  const [text, setText] = useState(() => textOf(material, newest));
  const { act, busy, trouble } = useProvenAct();
  const { site } = useTabletState();
  const troubles = troublesOf(text, localDay(useNow(60_000), site.zone));
  const set = (change: Partial<SpecificationText>): void => setText({ ...text, ...change });
  const save = async (): Promise<void> => {
    const payload = specificationOf(id, text);
    const done = payload !== undefined && (await act({ kind: 'specification-accepted', payload }));
    if (done) onDone(id);
  };
  return (
    <Screen
      title={material ? `${material.name}: a new version` : 'A new material'}
      actions={
        <>
          <Button onClick={onClose}>Leave it</Button>
          <Button look="go" disabled={busy || Object.keys(troubles).length > 0} onClick={() => void save()}>
            Accept it from now on
          </Button>
        </>
      }
    >
      {trouble}
      {material && !madeHere(text.type) ? (
        <Affected material={id} before={material.specifications.filter((s) => s.inForce)} now={text} />
      ) : null}
      <What text={text} set={set} troubles={troubles} first={!material} />
      <SpecificationAllergens text={text} set={set} troubles={troubles} />
      <Caution />
    </Screen>
  );
}

function What({ text, set, troubles, first }: Part & { readonly first: boolean }) {
  const mayBeFlour = text.countedIn === 'mass' && text.type !== 'packaging' && text.type !== 'product';
  return (
    <>
      <Field label="Name" value={text.name} onChange={(name) => set({ name })} maxLength={80} required hint={troubles.name} />
      {first ? (
        <Choice label="What type of thing" value={text.type} onChange={(type) => set({ type, flour: false })} options={types} />
      ) : null}
      <Choice label="Reckoned" value={text.countedIn} onChange={(countedIn) => set({ countedIn, flour: false })} options={counts} />
      <Choice label="Kept" value={text.storage} onChange={(storage) => set({ storage })} options={stores} />
      {troubles.storage === undefined ? null : <p className="hint">{troubles.storage}</p>}
      <Lives text={text} set={set} troubles={troubles} />
      {mayBeFlour ? <YesNo label="Is it flour?" value={text.flour} onChange={(flour) => set({ flour })} /> : null}
      <YesNo label="Is it of animal origin?" value={text.animalOrigin} onChange={(animalOrigin) => set({ animalOrigin })} />
      <Supplier value={text.supplier} onChange={(supplier) => set({ supplier })} />
    </>
  );
}

function Lives({ text, set, troubles }: Part) {
  return (
    <div className="two">
      <Field
        label="Days it keeps, unopened"
        value={text.lifeDays}
        onChange={(lifeDays) => set({ lifeDays })}
        hint={troubles.lifeDays ?? 'Empty where it is not known'}
      />
      <Field
        label="Hours it keeps once open"
        value={text.lifeOpenedHours}
        onChange={(lifeOpenedHours) => set({ lifeOpenedHours })}
        hint={troubles.lifeOpenedHours ?? 'Empty where it is not known'}
      />
      <Field
        label="Density, in grams per millilitre"
        value={text.density}
        onChange={(density) => set({ density })}
        hint={troubles.density ?? 'Only for what is bought or used by volume'}
      />
    </div>
  );
}

function Supplier({ value, onChange }: { readonly value: string; readonly onChange: (supplier: string) => void }) {
  const { snapshot } = useTabletState();
  const suppliers = new Map(snapshot.party.filter((p) => p.type === 'supplier').map((p) => [p.party, p.name ?? 'name withheld']));
  return (
    <Choice
      label="As it comes from"
      value={value}
      onChange={onChange}
      options={[...[...suppliers].map(([value, text]) => ({ value, text })), { value: '', text: 'anybody' }]}
    />
  );
}
