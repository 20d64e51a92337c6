import type { How } from '@bakehouse/kernel';
import { phrase, weighedType, type Row } from '@bakehouse/records';
import { useState } from 'react';
import { Button, Choice } from '../../ui';
import { AmountSheet } from './amount-sheet';
import { ChangeMake } from './change-make';
import { LotTrouble } from './lot-cell';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { openFor } from '../../shared/night/lots';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';

const types = weighedType.exclude(['ingredient']).options;

/** A little more water or flour while it mixes, rework put back in, or something that the formula does not say. */
export function AdjustMake({ make, version }: { readonly make: Row<'make'>; readonly version: Row<'formulaVersion'> }) {
  const { lookup, state, now } = useNight();
  const [material, setMaterial] = useState<{ readonly id: string; readonly name: string }>();
  const [type, setType] = useState<(typeof types)[number]>('late-addition');
  const [other, setOther] = useState(false);
  const { act, trouble } = useAct();
  const { unlessTroubled, asked } = useAllTheSame();
  const others = [
    ...new Map(
      state.snapshot.specification.filter((s) => s.type !== 'product' && s.type !== 'packaging').map((s) => [s.material, s.name]),
    ).entries(),
  ]
    .filter(([id]) => !version.content.lines.some((l) => l.material === id))
    .sort((a, b) => a[1].localeCompare(b[1]));
  const lotOf = (id: string): string | null =>
    openFor(lookup, make.station, make.at, now)
      .filter((o) => o.material === id)
      .at(-1)?.lot ?? null;
  const choose = (of: { readonly id: string; readonly name: string }): void => unlessTroubled([lotOf(of.id)], () => setMaterial(of));
  const add = async (grams: string | null, how: How): Promise<void> => {
    if (!material) return;
    const lot = lotOf(material.id);
    const line = { material: material.id, lot, quantity: grams === null ? null : ({ figure: grams, unit: 'g' } as const), how, type };
    if (await act({ kind: 'weighed-in', payload: { make: make.id, lines: [line] } })) setMaterial(undefined);
  };
  return (
    <>
      {trouble}
      {asked}
      <Choice label="It is" value={type} onChange={setType} options={types.map((s) => ({ value: s, text: phrase(`flow.${s}`) }))} />
      <div className="buttons">
        {version.content.lines.map((l) => (
          <Button key={l.material} onClick={() => choose({ id: l.material, name: l.name })}>
            {`+ ${l.name}`} <LotTrouble lot={lotOf(l.material)} />
          </Button>
        ))}
        {other ? (
          others.map(([id, name]) => (
            <Button key={id} onClick={() => choose({ id, name })}>
              {`+ ${name}`} <LotTrouble lot={lotOf(id)} />
            </Button>
          ))
        ) : (
          <Button look="quiet" onClick={() => setOther(true)}>
            Something else
          </Button>
        )}
      </div>
      <ChangeMake
        make={make}
        lines={version.content.lines.map((l) => ({ id: l.material, name: l.name }))}
        others={others.map(([id, name]) => ({ id, name }))}
      />
      {material ? (
        <AmountSheet
          title={`${material.name}: how much more?`}
          value={{ grams: null, how: 'weighed' }}
          lots={[lotOf(material.id)].filter((lot) => lot !== null)}
          onClose={() => setMaterial(undefined)}
          onDone={(a) => void add(a.grams, a.how)}
        />
      ) : null}
    </>
  );
}
