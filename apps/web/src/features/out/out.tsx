import { phrase } from '@bakehouse/records';
import { type ProductOnHand } from '@bakehouse/views';
import { Link } from 'wouter';
import { dayText } from '../../shared/format';
import { Caution, Empty, LinkButton, Screen, Section, StateWord, Tile, Tiles } from '../../ui';
import { paths } from '../../shared/night/paths';
import { channels, titleOf } from './channels';
import { Left, LotState } from './left';
import { useOnHand } from './use-on-hand';

/** What is there and where it goes: the second half of the night's record. */
export function Out() {
  const { night, products: all, leftOut } = useOnHand();
  const products = all.filter((p) => p.lots.some(isHere));
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
            <Tile key={c.channel} to={paths.send(c.channel)} title={titleOf(c, night.state.snapshot)} detail={c.detail} />
          ))}
          <Tile to={paths.returned} title="Came back" detail="from a round, a stall, a customer" />
        </Tiles>
      </Section>
      <Section title="What is there">
        {products.length === 0 ? (
          <Empty>Nothing that was counted out is left. “Count out” on a product says what there is.</Empty>
        ) : (
          <ul className="cards">
            {products.map((p) => (
              <ProductCard key={p.product} p={p} />
            ))}
          </ul>
        )}
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

function ProductCard({ p }: { readonly p: ProductOnHand }) {
  return (
    <li className="card">
      <h3>{p.name}</h3>
      <p>
        <Left left={p.left} />
      </p>
      <ul className="rows">
        {p.lots.filter(isHere).map((l) => (
          <li key={l.id}>
            <Link href={paths.countLot(l.id)} className="row">
              <span className="row-main">
                <span className="unseen">{p.name}, </span>
                <strong>{l.code}</strong> {dayText(l.bakedOn)}
                {l.useBy === null ? '' : `, use by ${dayText(l.useBy)}`} · <Left left={l.left} />
                {l.where === null ? '' : ` · ${l.where.some ? 'some of it ' : ''}in ${l.where.name}`}
              </span>
              <span className="row-side">
                {l.onCounter === null ? (
                  <LotState lot={l} />
                ) : (
                  <StateWord shape="ring" tone="calm">
                    {phrase('counter.on')}
                  </StateWord>
                )}
                <span className="unseen">: count</span>
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </li>
  );
}

/** A lot that is all at another place of the house is counted there; what speaks against one is told wherever it is. */
const isHere = (l: ProductOnHand['lots'][number]): boolean => l.left !== 0 || l.onCounter !== null || l.trouble !== null;
