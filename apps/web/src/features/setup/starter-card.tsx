import { countText } from '@bakehouse/kernel';
import { matched, missingFor, weightOf, type NewEntry, type StarterFormula, type StarterMaterial } from '@bakehouse/records';
import { materialId } from '@bakehouse/views';
import { useState, type ReactNode } from 'react';
import { mass } from '../../shared/format';
import { useTabletState } from '../../shared/tablet-context';
import { TroubleNotice } from '../../shared/trouble-notice';
import { useMany, type ManyDone } from '../../shared/use-many';
import { Button, StateWord } from '../../ui';
import type { Known } from './known';

interface Props {
  readonly starter: StarterFormula;
  readonly known: Known;
  readonly onListed: () => Promise<void>;
  readonly children: ReactNode;
}

/** One starter formula: its percentages, and which of its materials the house has. */
export function StarterCard({ starter, known, onListed, children }: Props) {
  const missing = missingFor(starter, known);
  return (
    <>
      <h3>{starter.name}</h3>
      <p>
        <StateWord shape="ring" tone="calm">
          nobody has approved it
        </StateWord>
      </p>
      <p>{starter.says}</p>
      <table className="lines">
        <thead>
          <tr>
            <th scope="col">Material</th>
            <th scope="col" className="amount">
              Of flour
            </th>
            <th scope="col" className="amount">
              Weight
            </th>
          </tr>
        </thead>
        <tbody>
          {starter.lines.map(({ of, share }) => (
            <tr key={of.name}>
              <td>
                {matched(of, known)?.name ?? of.name}
                {matched(of, known) ? null : <span className="faint"> (not on your list)</span>}
              </td>
              <td className="amount">{share / 100} %</td>
              <td className="amount">{mass(weightOf(starter, share))}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        Makes {starter.pieces} × {starter.product.name}, {mass(starter.scalingMg)} of dough each.
      </p>
      {missing.length > 0 ? <ListMissing missing={missing} onListed={onListed} /> : null}
      <div className="buttons">{children}</div>
    </>
  );
}

function ListMissing({ missing, onListed }: { readonly missing: readonly StarterMaterial[]; readonly onListed: () => Promise<void> }) {
  const { site } = useTabletState();
  const [busy, setBusy] = useState(false);
  const [done, setDone] = useState<ManyDone>();
  const many = useMany();
  const list = async (): Promise<void> => {
    setBusy(true);
    setDone(
      await many(
        missing.map((of) => entryOf(of, site.organisation)),
        () => undefined,
      ),
    );
    setBusy(false);
    await onListed();
  };
  return (
    <>
      <p>Not on your list: {missing.map((m) => m.name).join(', ')}.</p>
      <TroubleNotice of={done?.trouble} />
      {done?.refused.map((r) => (
        <p key={r.at}>Not taken: {r.says}</p>
      ))}
      <div className="buttons">
        <Button needs="manage.catalogue" disabled={busy} onClick={() => void list()}>
          Put {countText(missing.length, 'of these', 'of these')} on the list
        </Button>
      </div>
      <p className="faint">What they contain stays not known until somebody has checked it.</p>
    </>
  );
}

/** A material by its name alone. Nobody has checked it, so nothing is said of what it contains. */
const entryOf = ({ name, type, storage, flour, animalOrigin }: StarterMaterial, organisation: string): NewEntry => ({
  kind: 'specification-accepted',
  payload: {
    material: materialId(organisation, name),
    name,
    type,
    countedIn: type === 'product' ? 'pieces' : 'mass',
    densityMgPerMl: null,
    storage,
    lifeDays: null,
    lifeOpenedHours: null,
    contains: [],
    mayContain: [],
    checked: null,
    flour,
    animalOrigin,
    supplier: null,
  },
});
