import { siteDay } from '@bakehouse/kernel';
import { inStock, type LotInStock } from '@bakehouse/views';
import { useMemo, useState } from 'react';
import { TroubleWord } from '../../shared/concerns';
import { ageText, dayText, mass, massRange } from '../../shared/format';
import { Caution, Empty, Field, LinkButton, RowLink, Screen, Section, StateWord, useMay } from '../../ui';
import { codeText } from '../../shared/night/code-text';
import { paths } from '../../shared/night/paths';
import { useNight, type Night } from '../../shared/night/use-night';
import { OldBread } from './old-bread';
import { useOnHand } from './use-on-hand';

export interface Stock {
  readonly night: Night;
  readonly lots: readonly LotInStock[];
}

/** Ingredients that are here, as this tablet knows them. */
export function useStock(): Stock {
  const night = useNight();
  const lots = useMemo(() => inStock(night.lookup), [night.lookup]);
  return { night, lots };
}

/** Every lot of an ingredient that is not used up: tap it and count it. */
export function StockPage() {
  const { night, lots } = useStock();
  const [search, setSearch] = useState('');
  const mayRecord = useMay('record');
  const { products } = useOnHand();
  const wanted = search.trim().toLowerCase();
  const found = lots.filter((l) => `${l.name} ${l.code.code ?? ''}`.toLowerCase().includes(wanted));
  return (
    <Screen
      title="In stock"
      back={{ to: paths.out, text: 'Send out' }}
      actions={
        <>
          <LinkButton to={paths.move}>Move</LinkButton>
          <LinkButton to={paths.vessel}>Bins and tubs</LinkButton>
        </>
      }
    >
      <OldBread night={night} products={products} />
      <Field label="Find it by name or code" value={search} onChange={setSearch} />
      <Section title={mayRecord ? 'Tap a lot to count it' : 'What is here'}>
        {found.length === 0 ? (
          <Empty>
            Nothing of that name is in stock by the records. Record what came without a record under Goods in, Unattended delivery.
          </Empty>
        ) : (
          <ul className="rows">
            {found.slice(0, 60).map((l) => (
              <StockRow key={l.id} l={l} came={cameText(l, siteDay(l.at, night.state.site), night.now)} />
            ))}
          </ul>
        )}
        {found.length > 60 ? <p className="hint">The first 60 are shown; find the others by name.</p> : null}
      </Section>
      <Caution />
    </Screen>
  );
}

/** Since when it is here; what was made here says how old it is, as old dough and fillings are judged by it. */
export const cameText = (l: Pick<LotInStock, 'type' | 'at'>, day: string, now: string): string =>
  madeTypes.has(l.type) ? `made ${dayText(day)}, ${ageText(l.at, now)} old` : `came ${dayText(day)}`;
const madeTypes: ReadonlySet<LotInStock['type']> = new Set(['made', 'old-dough', 'vessel']);

function StockRow({ l, came }: { readonly l: LotInStock; readonly came: string }) {
  return (
    <li>
      <RowLink to={paths.countLot(l.id)}>
        <span className="row-main">
          <strong>{l.name}</strong> {codeText(l.code)} · {came}
          {l.useBy === null ? '' : ` · use by ${dayText(l.useBy)}`}
          {l.where === null ? '' : ` · ${l.where.some ? 'some of it ' : ''}in ${l.where.name}`}
        </span>
        <span className="row-side">
          <TroubleWord trouble={l.said} /> {l.trouble === null || (l.leftMg ?? 0) < 0 ? <LeftMg of={l} /> : null}
          <span className="unseen">: count</span>
        </span>
      </RowLink>
    </li>
  );
}

/** What is left by the records, with what is wrong with that said. */
export function LeftMg({ of }: { readonly of: Pick<LotInStock, 'leftMg' | 'perhapsMg'> }) {
  if (of.leftMg !== null && of.leftMg < 0)
    return (
      <StateWord shape="diamond" tone="bad">
        {leftText(of)}
      </StateWord>
    );
  return <span>{of.leftMg === null ? leftText(of) : `${leftText(of)} left`}</span>;
}

/** What is left by the records, or why they cannot say. */
export function leftText({ leftMg, perhapsMg }: Pick<LotInStock, 'leftMg' | 'perhapsMg'>): string {
  if (leftMg === null) return 'amount not known: count it';
  return leftMg < 0 ? `more taken than there was: by ${mass(-leftMg)}; count it` : massRange(leftMg, perhapsMg);
}
