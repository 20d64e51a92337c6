import type { How } from '@bakehouse/kernel';
import { phrase, reworkWords, weighedType, type Row } from '@bakehouse/records';
import { codeOf } from '@bakehouse/views';
import { useState } from 'react';
import { Button, Choice } from '../../ui';
import { lotsToPutBack, reworkAgainst } from './against-rule';
import { AmountSheet } from './amount-sheet';
import { ChangeMake } from './change-make';
import { LotTrouble } from './lot-cell';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { whenText } from '../../shared/format';
import { codeText } from '../../shared/night/code-text';
import { openFor } from '../../shared/night/lots';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';

const types = weighedType.exclude(['ingredient']).options;

interface Chosen {
  readonly id: string;
  readonly name: string;
  readonly lot: string | null;
}

/** A little more water or flour while it mixes, rework put back in, or something that the formula does not say. */
export function AdjustMake({ make, version }: { readonly make: Row<'make'>; readonly version: Row<'formulaVersion'> }) {
  const [night, { act, trouble }, { unlessTroubled, asked }] = [useNight(), useAct(), useAllTheSame()];
  const { lookup, state, now } = night;
  const [material, setMaterial] = useState<Chosen>();
  const [type, setType] = useState<(typeof types)[number]>('late-addition');
  const [other, setOther] = useState(false);
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
  const choose = ({ id, name, lot = lotOf(id) }: Partial<Chosen> & Pick<Chosen, 'id' | 'name'>): void =>
    unlessTroubled([lot], () => setMaterial({ id, name, lot }));
  const lineOf = ({ id, lot }: Chosen, grams: string | null, how: How) =>
    ({ material: id, lot, quantity: grams === null ? null : ({ figure: grams, unit: 'g' } as const), how, type }) as const;
  const add = (of: Chosen, grams: string | null, how: How): void => {
    const line = lineOf(of, grams, how);
    setMaterial(undefined);
    const record = (): void => void act({ kind: 'weighed-in', payload: { make: make.id, lines: [line] } });
    unlessTroubled([], record, 'using', reworkAgainst(night, make.id, [line]));
  };
  return (
    <>
      {trouble}
      {asked}
      <Choice label="It is" value={type} onChange={setType} options={types.map((s) => ({ value: s, text: phrase(`flow.${s}`) }))} />
      {type === 'rework' ? <PutBack make={make} version={version} onChoose={choose} /> : null}
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
          lots={[material.lot].filter((lot) => lot !== null)}
          against={(grams) => reworkAgainst(night, make.id, [lineOf(material, grams, 'weighed')])}
          onClose={() => setMaterial(undefined)}
          onDone={(a) => add(material, a.grams, a.how)}
        />
      ) : null}
    </>
  );
}

/** What the formula says may be put back, and the lots of it that are there. */
function PutBack({
  make,
  version: {
    content: { rework },
  },
  onChoose,
}: {
  readonly make: Row<'make'>;
  readonly version: Row<'formulaVersion'>;
  readonly onChoose: (of: Chosen) => void;
}) {
  const night = useNight();
  if (rework === null) return null;
  return (
    <>
      <p>{reworkWords(rework).join(' ')}</p>
      {rework.maxTimes === null ? null : (
        <p className="faint">
          How often something was put back on earlier days this tablet may not know: it is judged once the record has arrived.
        </p>
      )}
      <div className="buttons">
        {rework.sources.flatMap((s) =>
          lotsToPutBack(night, make, s.material).map((lot) => (
            <Button key={lot.id} onClick={() => onChoose({ id: s.material, name: s.name, lot: lot.id })}>
              {`+ ${s.name}, ${codeText(codeOf(night.lookup, lot.id))}, ${whenText(lot.at, night.now, night.zone)}`}{' '}
              <LotTrouble lot={lot.id} />
            </Button>
          )),
        )}
      </div>
    </>
  );
}
