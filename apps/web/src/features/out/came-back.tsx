import { phrase, returnedDisposition, type NewEntryOf } from '@bakehouse/records';
import { sharesOf, type ProductThere, type Share } from '@bakehouse/views';
import { useState } from 'react';
import { AmountPad, unitsOf, useAmount } from '../../shared/amount-pad';
import { whole } from '../../shared/format';
import { useNight } from '../../shared/night/use-night';
import { ReasonField } from '../../shared/reason-field';
import { useAct } from '../../shared/use-act';
import { Button, Choice, Sheet } from '../../ui';
import type { HadIt } from './who-had-it';

const dispositions = returnedDisposition.extract(['waste', 'on-hand', 'rework', 'feed', 'donation']).options;
type Disposition = (typeof dispositions)[number];
/** What is eaten after all: of a lot that nobody read it would be found by no recall. */
const eatenAfterAll: ReadonlySet<Disposition> = new Set(['on-hand', 'rework', 'donation']);
/** Common practice, by no source: it is recorded as words. */
const reasons = ['not sold', 'damaged', 'wrong goods', 'complaint'] as const;

interface Props {
  readonly product: ProductThere;
  readonly from: HadIt;
  readonly onClose: () => void;
  readonly onDone: (what: string) => void;
}

/** How many, why, and what becomes of them; of which lot only where somebody can read it. */
export function CameBack({ product, from, onClose, onDone }: Props) {
  const lots = [...new Map(product.went.flatMap((w) => w.lots).map((l) => [l.lot, l.code ?? 'no code'])).entries()];
  const amount = useAmount(unitsOf(useNight().lookup, lots[0]?.[0] ?? null));
  const [why, setWhy] = useState('');
  const [read, setRead] = useState<string | null>(null);
  const [disposition, setDisposition] = useState<Disposition | null>(null);
  const { act, busy, trouble } = useAct();
  const { quantity } = amount;
  const inPieces = amount.unit === 'piece';
  const shares = quantity === null || Number(quantity.figure) === 0 ? [] : sharesOf(product, inPieces ? Number(quantity.figure) : 1, read);
  const unread = lots.length > 1 && read === null && disposition !== null && eatenAfterAll.has(disposition);
  const save = async (): Promise<void> => {
    if (quantity === null || disposition === null || unread) return;
    const entry = ({ lot, departure, pieces, orOf }: Share): NewEntryOf<'goods-returned'> => ({
      kind: 'goods-returned',
      ...wordsOf(why, orOf),
      payload: {
        ...{ lot, departure, customer: from.customer, disposition },
        ...(inPieces ? { quantity: { figure: String(pieces), unit: 'piece' }, how: 'counted' } : { quantity, how: 'weighed' }),
      },
    });
    const [last, ...before] = (inPieces ? shares : shares.slice(0, 1)).map(entry).toReversed();
    if (last === undefined || !(await act(last, before))) return;
    onDone(`${amount.typed}${inPieces ? '' : ` ${amount.unit}`} ${product.name} came back`);
    onClose();
  };
  return (
    <Sheet title={`${product.name}: came back`} onClose={onClose}>
      {trouble}
      <AmountPad label={inPieces ? 'How many' : 'How much'} amount={amount} />
      {inPieces && amount.typed !== '' ? <Stayed product={product} back={Number(amount.typed)} stall={from.channel === 'stall'} /> : null}
      <ReasonField label="Why?" reasons={reasons} value={why} onChange={setWhy} maxLength={200} />
      <Choice
        label="Disposition"
        value={disposition}
        onChange={setDisposition}
        options={dispositions.map((f) => ({ value: f, text: phrase(`returned.${f}`) }))}
      />
      {lots.length < 2 ? null : (
        <Choice
          label="What is the code on it?"
          value={read ?? ''}
          onChange={(lot) => setRead(lot === '' ? null : lot)}
          options={[{ value: '', text: 'nobody looked: by what went last' }, ...lots.map(([value, text]) => ({ value, text }))]}
        />
      )}
      {unread ? (
        <p role="status">It is eaten after all: read the code on it, or throw it away. A recall could not find it otherwise.</p>
      ) : null}
      {shares.length === 0 || unread ? null : (
        <p className="hint">It is recorded {shares.map((s) => ofWhich(s, lots, inPieces)).join('; ')}.</p>
      )}
      <div className="buttons">
        <Button look="go" disabled={busy || disposition === null || unread || shares.length === 0} onClick={() => void save()}>
          Record it
        </Button>
      </div>
    </Sheet>
  );
}

function Stayed({
  product: { stillOut },
  back,
  stall,
}: {
  readonly product: ProductThere;
  readonly back: number;
  readonly stall: boolean;
}) {
  if (stillOut === null) return null;
  const stayed = stillOut - back;
  return (
    <p className="sum" role="status">
      {stayed < 0
        ? `${whole(-stayed)} more than went there: count again.`
        : `${whole(stayed)} ${stall ? 'sold on the stall' : 'stayed there'}.`}
    </p>
  );
}

const ofWhich = ({ lot, pieces, orOf }: Share, lots: readonly (readonly [string, string])[], inPieces: boolean): string =>
  `${inPieces ? `${whole(pieces)} ` : ''}as of ${lots.find(([id]) => id === lot)?.[1] ?? 'no code'}${orOf.length === 0 ? '' : `, which may be ${orOf.join(' or ')}`}`;

/** Why it came back; and that nobody knows of which lot, since the record names one. */
function wordsOf(why: string, orOf: readonly string[]): { words?: { note: string } } {
  const note = [why.trim(), orOf.length === 0 ? '' : `nobody read the code; may be ${orOf.join(' or ')}`]
    .filter((w) => w !== '')
    .join('; ');
  return note === '' ? {} : { words: { note: note.slice(0, 400) } };
}
