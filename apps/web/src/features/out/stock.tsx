import { daysAfter, siteDay } from '@bakehouse/kernel';
import { inStock, type LotInStock } from '@bakehouse/views';
import { useCallback, useMemo, useState } from 'react';
import { Link } from 'wouter';
import { TroubleWord } from '../../shared/concerns';
import { dayText, mass } from '../../shared/format';
import { Caution, Empty, Field, LinkButton, Screen, Section, StateWord } from '../../ui';
import { codeText } from '../../shared/night/code-text';
import { paths } from '../../shared/night/paths';
import { useNight, type Night } from '../../shared/night/use-night';

export interface Stock {
  readonly night: Night;
  readonly lots: readonly LotInStock[];
  /** Whether this tablet holds everything that happened to a lot: it does of those that came yesterday or since. */
  readonly knows: (lot: LotInStock) => boolean;
}

/** Ingredients that are here, as this tablet knows them. */
export function useStock(): Stock {
  const night = useNight();
  const lots = useMemo(() => inStock(night.lookup), [night.lookup]);
  const since = daysAfter(night.day, -1);
  const { site } = night.state;
  return { night, lots, knows: useCallback((l) => siteDay(l.at, site) >= since, [site, since]) };
}

/** Every lot of an ingredient that is not used up: tap it and count it. */
export function StockPage() {
  const { night, lots, knows } = useStock();
  const [search, setSearch] = useState('');
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
      <Field label="Find it by name or code" value={search} onChange={setSearch} />
      <Section title="Tap a lot to count it">
        {found.length === 0 ? (
          <Empty>
            Nothing of that name is in stock by the records. Record what came without a record under Goods in, Unattended delivery.
          </Empty>
        ) : (
          <ul className="rows">
            {found.slice(0, 60).map((l) => (
              <StockRow key={l.id} l={l} came={siteDay(l.at, night.state.site)} known={knows(l)} />
            ))}
          </ul>
        )}
        {found.length > 60 ? <p className="hint">The first 60 are shown; find the others by name.</p> : null}
      </Section>
      <Caution />
    </Screen>
  );
}

function StockRow({ l, came, known }: { readonly l: LotInStock; readonly came: string; readonly known: boolean }) {
  return (
    <li>
      <Link href={paths.countLot(l.id)} className="row">
        <span className="row-main">
          <strong>{l.name}</strong> {codeText(l.code)} · came {dayText(came)}
          {l.useBy === null ? '' : ` · use by ${dayText(l.useBy)}`}
          {l.where === null ? '' : ` · ${l.where.some ? 'some of it ' : ''}in ${l.where.name}`}
        </span>
        <span className="row-side">
          <TroubleWord trouble={l.said} />
          {l.trouble === null || (l.leftMg ?? 0) < 0 ? <LeftMg mg={l.leftMg} known={known} /> : null}
          <span className="unseen">: count</span>
        </span>
      </Link>
    </li>
  );
}

/** What is left by the records, with what is wrong with that said. */
export function LeftMg({ mg, known }: { readonly mg: number | null; readonly known: boolean }) {
  if (mg !== null && mg < 0)
    return (
      <StateWord shape="diamond" tone="bad">
        {`more taken than there was: by ${mass(-mg)}; count it`}
      </StateWord>
    );
  if (!known) return <span>came before yesterday: count it</span>;
  if (mg === null) return <span>amount not known: count it</span>;
  return <span>{mass(mg)} left</span>;
}
