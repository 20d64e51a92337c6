import { keptFrom, type LotOnHand, type ProductOnHand } from '@bakehouse/views';
import { useState } from 'react';
import { TroubleWord } from '../../shared/concerns';
import { whole } from '../../shared/format';
import { Button, Choice, Empty, NumberPad, Section, Sheet, StateWord } from '../../ui';
import { AcceptedPartOf, anyOf, LateWord, LeftOf, LotState } from './left';
import './order-lines.css';
import { goes, isChanged, stepped, type RoundLine } from './round-lines';
import type { Sending } from './use-sending';

/** What goes, line by line, each changed by exception; and what else there is. */
export function OrderLines({ sending: s }: { readonly sending: Sending }) {
  const [asking, setAsking] = useState<string>();
  const product = s.products.find((p) => p.product === asking);
  const on = new Set(s.asked.map((l) => l.product));
  const rest = s.products.filter((p) => !on.has(p.product));
  return (
    <>
      {s.asked.length === 0 ? null : (
        <Section title="What goes">
          <ul className="rows order-lines">
            {s.asked.map((l) => (
              <OrderLine key={l.product} line={l} sending={s} onType={() => setAsking(l.product)} />
            ))}
          </ul>
          {s.order === null ? null : <Sum lines={s.asked} />}
        </Section>
      )}
      <Section title={s.asked.length === 0 ? 'What and how many' : 'Add to it'}>
        {s.products.length === 0 ? <Empty>Nothing that was counted out is left.</Empty> : null}
        {s.products.length > 0 && rest.length === 0 ? <Empty>Everything that is left is in it.</Empty> : null}
        <div className="figure-keys">
          {rest.map((p) => (
            <button key={p.product} type="button" className="figure-key" onClick={() => setAsking(p.product)}>
              <span>
                {p.name}, <LeftOf product={p} />
              </span>
              {p.onHold === 0 && p.pastDate === 0 ? <TroubleWord trouble={saidOfTaken(p)} /> : null}
            </button>
          ))}
        </div>
      </Section>
      {product ? <Pieces product={product} sending={s} onClose={() => setAsking(undefined)} /> : null}
    </>
  );
}

interface LineProps {
  readonly line: RoundLine;
  readonly sending: Sending;
  readonly onType: () => void;
}

function OrderLine({ line: l, sending: s, onType }: LineProps) {
  if (l.onHand === undefined)
    return (
      <li className="row">
        <span className="row-main">
          <strong>{l.name}</strong> {l.ordered === null ? '' : `${whole(l.ordered)} in the order`}
        </span>
        <StateWord shape="diamond" tone="ask">
          none is left: none goes
        </StateWord>
      </li>
    );
  const { name, lot } = l;
  const step = (by: 1 | -1): void => s.take(l.product, { pieces: stepped(l.pieces, by), lot });
  const was = l.inOrder && isChanged(l) && l.ordered !== null ? l.ordered : null;
  return (
    <li className={isChanged(l) ? 'row changed' : 'row'}>
      <span className="row-main">
        <strong>{name}</strong> {goes(l) === 0 && l.inOrder ? (l.ordered === null ? 'how many is not known' : 'none this time') : null}
        <Stock line={l} of={l.onHand} />
      </span>
      <span className="order-figure">
        <Button label={`${name}: one fewer`} disabled={goes(l) === 0} onClick={() => step(-1)}>
          −
        </Button>
        <button
          type="button"
          className="button order-pieces"
          aria-label={`${name}: ${whole(goes(l))}${was === null ? '' : `, ${whole(was)} in the order`}`}
          onClick={onType}
        >
          {was === null ? null : <s>{whole(was)}</s>} <b>{l.pieces === '' ? '–' : whole(goes(l))}</b>
        </button>
        <Button label={`${name}: one more`} onClick={() => step(1)}>
          +
        </Button>
      </span>
    </li>
  );
}

/** How many there are, which of them came first, and what speaks against any. */
function Stock({ line, of }: { readonly line: RoundLine; readonly of: ProductOnHand }) {
  const may = new Set(line.lot === null ? anyOf(of) : [line.lot]);
  const taken = of.lots.filter((lot) => may.has(lot.id));
  const [first] = taken;
  const here = of.lots.filter((lot) => lot.left !== 0);
  const said = here.filter((lot) => lot.trouble !== null || lot.said !== null || lot.late.length > 0 || lot.release !== 'released');
  const over = of.left !== null && of.left >= 0 && goes(line) > of.left ? goes(line) - of.left : 0;
  return (
    <span className="order-stock">
      <LeftOf product={of} />
      {first === undefined ||
      first.left === 0 ||
      (line.lot === null && keptFrom(first) !== null) ||
      (taken.length === 1 && said.includes(first)) ? null : line.lot !== null ? (
        <span>
          of <span className="lot-code">{first.code}</span> only
        </span>
      ) : taken.length > 1 ? (
        <span>
          take <span className="lot-code">{first.code}</span> first{first.left === null ? '' : `, ${whole(first.left)} there`}
        </span>
      ) : (
        <span className="lot-code">{first.code}</span>
      )}
      {said.slice(0, 3).map((lot) => (
        <Said key={lot.id} lot={lot} />
      ))}
      {said.length > 3 ? <span>and {whole(said.length - 3)} more lots that something is said of</span> : null}
      {over === 0 ? null : (
        <StateWord shape="diamond" tone="ask">
          {`${whole(over)} more than are left by the records`}
        </StateWord>
      )}
    </span>
  );
}

const Said = ({ lot }: { readonly lot: LotOnHand }) => (
  <span className="order-said">
    <span className="lot-code">{lot.code}</span> <LotState lot={lot} />
  </span>
);

function Sum({ lines }: { readonly lines: readonly RoundLine[] }) {
  const changes = lines.filter(isChanged).length;
  return (
    <p className="sum" role="status">
      {`${whole(lines.length)} ${lines.length === 1 ? 'line' : 'lines'}, `}
      {changes === 0 ? 'all as then.' : `${whole(changes)} changed.${changes < lines.length ? ' The rest as then.' : ''}`}
    </p>
  );
}

interface PiecesProps {
  readonly product: ProductOnHand;
  readonly sending: Sending;
  readonly onClose: () => void;
}

function Pieces({ product, sending, onClose }: PiecesProps) {
  const line = sending.asked.find((l) => l.product === product.product);
  const { pieces = '', lot = null } = line ?? {};
  const there = product.lots.filter((l) => l.id === lot || ((l.left === null || l.left > 0) && keptFrom(l) === null));
  const rest = product.lots.filter((l) => !there.includes(l));
  const optionsOf = (some: readonly LotOnHand[]) => some.map((l) => ({ value: l.id, text: <OneLot lot={l} /> }));
  const choose = (id: string): void => sending.take(product.product, { pieces, lot: id === '' ? null : id });
  const close = (todo: () => void) => (): void => {
    todo();
    onClose();
  };
  return (
    <Sheet title={product.name} onClose={onClose}>
      <NumberPad
        label="Pieces"
        value={pieces}
        decimals={false}
        maxDigits={5}
        onEnter={onClose}
        onChange={(n) => sending.take(product.product, { pieces: n, lot })}
      />
      {product.lots.length < 2 ? null : (
        <Choice
          label="Of which lot? The oldest is first."
          value={lot ?? ''}
          options={[{ value: '', text: 'any of them' }, ...optionsOf(there)]}
          onChange={choose}
        />
      )}
      {product.lots.length < 2 || rest.length === 0 ? null : (
        <details>
          <summary>{`${whole(rest.length)} more, on hold, past their date or gone by the records`}</summary>
          <Choice label="One of those" value={null} options={optionsOf(rest)} onChange={choose} />
        </details>
      )}
      <div className="buttons">
        <Button look="go" onClick={onClose}>
          Done
        </Button>
        {line === undefined ? null : (
          <>
            <Button onClick={close(() => sending.take(product.product, { pieces: line.inOrder ? '0' : '', lot: null }))}>
              Take it off
            </Button>
            {line.inOrder && isChanged(line) ? <Button onClick={close(() => sending.asOrdered(product.product))}>As ordered</Button> : null}
          </>
        )}
      </div>
    </Sheet>
  );
}

/** What would be taken of a product when nobody picks by lot is troubled only where all of it is. */
const saidOfTaken = (p: ProductOnHand): LotOnHand['said'] => {
  const taken = new Set(anyOf(p));
  const some = p.lots.filter((l) => taken.has(l.id));
  return (some.find((l) => l.trouble !== null) ?? some.find((l) => l.said !== null))?.said ?? null;
};

const OneLot = ({ lot: { code, left, said, accepted, late } }: { readonly lot: LotOnHand }) => (
  <>
    {code}, {leftText(left)} <TroubleWord trouble={said} /> <AcceptedPartOf lot={{ accepted }} /> <LateWord lot={{ late }} />
  </>
);

const leftText = (left: number | null): string => (left === null ? 'number not known' : `${whole(left)} left`);
