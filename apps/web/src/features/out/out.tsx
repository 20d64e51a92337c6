import { phrase } from '@bakehouse/records';
import { type ProductOnHand } from '@bakehouse/views';
import { dayText } from '../../shared/format';
import { Caution, Empty, LinkButton, RowLink, Screen, Section, StateWord, Tile, Tiles } from '../../ui';
import { paths } from '../../shared/night/paths';
import { ByWhatWasUsed, ContainsOf, useContents } from './contents';
import { channels, titleOf } from './channels';
import { Left, LeftOf, LotState } from './left';
import { OldBread } from './old-bread';
import { useOnHand } from './use-on-hand';

/** What is there and where it goes: the second half of the night's record. */
export function Out() {
  const { night, here: products, leftOut } = useOnHand();
  const contentsOf = useContents(products);
  return (
    <Screen
      title="Send out"
      actions={
        <>
          <LinkButton to={paths.counter}>Counter</LinkButton>
          <LinkButton to={paths.move}>Move</LinkButton>
          <LinkButton to={paths.stock}>In stock</LinkButton>
        </>
      }
    >
      <Section title="Where is it going?">
        <Tiles label="Where to">
          {channels.map((c) => (
            <Tile key={c.channel} to={paths.send(c.channel)} title={titleOf(c, night.state.snapshot, night.now)} detail={c.detail} />
          ))}
          <Tile to={paths.returned} title="Came back" detail="from a round, a stall, a customer" />
        </Tiles>
      </Section>
      <OldBread night={night} products={products} />
      <Section title="What is there">
        {products.length === 0 ? (
          <Empty>Nothing that was counted out is left. “Count out” on a product says what there is.</Empty>
        ) : (
          <ul className="cards">
            {products.map((p) => (
              <ProductCard key={p.product} p={p} contains={contentsOf(p.product)} />
            ))}
          </ul>
        )}
        {products.length === 0 ? null : <ByWhatWasUsed />}
        <p className="hint">Batches that are not all gone by the records, whenever they were baked, as this tablet knows them.</p>
        {leftOut === 0 ? null : (
          <p className="hint">
            And {leftOut} more from longer ago, some of which may be here or come back: find them by their code in the office. Count what is
            gone, and they are not listed any more.
          </p>
        )}
      </Section>
      <Caution />
    </Screen>
  );
}

interface CardProps {
  readonly p: ProductOnHand;
  readonly contains: Parameters<typeof ContainsOf>[0]['of'];
}

function ProductCard({ p, contains }: CardProps) {
  return (
    <li className="card">
      <h3>{p.name}</h3>
      <p>
        <LeftOf product={p} />
      </p>
      <ContainsOf of={contains} />
      <ul className="rows">
        {p.lots.map((l) => (
          <li key={l.id}>
            <RowLink to={paths.countLot(l.id)}>
              <span className="row-main">
                <span className="unseen">{p.name}, </span>
                <strong>{l.code}</strong> {dayText(l.bakedOn)}
                {l.useBy === null ? '' : `, use by ${dayText(l.useBy)}`} · <Left left={l.left} />
                {l.where === null ? '' : ` · ${l.where.some ? 'some of it ' : ''}in ${l.where.name}`}
              </span>
              <span className="row-side">
                <LotState lot={l} />{' '}
                {l.onCounter === null ? null : (
                  <StateWord shape="ring" tone="calm">
                    {phrase('counter.on')}
                  </StateWord>
                )}
                <span className="unseen">: count</span>
              </span>
            </RowLink>
          </li>
        ))}
      </ul>
    </li>
  );
}
