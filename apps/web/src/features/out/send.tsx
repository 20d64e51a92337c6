import { phrase } from '@bakehouse/records';
import { decidedDestroyed, type LotOnHand, type Lookup, type ProductOnHand } from '@bakehouse/views';
import { useState } from 'react';
import { TroubleWord } from '../../shared/concerns';
import { whole } from '../../shared/format';
import { Button, Caution, Choice, Empty, Field, LinkButton, Notice, NumberPad, Screen, Section, Sheet } from '../../ui';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { paths } from '../../shared/night/paths';
import { WhenWho } from '../../shared/night/when-who';
import { lossReasons, ReasonField } from '../../shared/reason-field';
import { ofLot } from '../../shared/trace/words';
import { channels, type ChannelChoice } from './channels';
import { anyOf, Left } from './left';
import { countedHow, useSending, type Sending } from './use-sending';

const back = { to: paths.out, text: 'Send out' };

/** Pieces to one customer, to a stall, into the bin: typed per product, of any lot that is there unless somebody says which. */
export function Send({ channel }: { readonly channel: string }) {
  const choice = channels.find((c) => c.channel === channel);
  if (!choice)
    return (
      <Screen title="Send out" back={back}>
        <Empty>There is no such way out.</Empty>
      </Screen>
    );
  return <Form choice={choice} />;
}

function Form({ choice }: { readonly choice: ChannelChoice }) {
  const s = useSending(choice);
  const [asking, setAsking] = useState<ProductOnHand>();
  const { unlessTroubled, asked } = useAllTheSame();
  if (s.sent) return <OnRecord choice={choice} sending={s} />;
  return (
    <Screen
      title={choice.title}
      back={back}
      actions={
        <Button
          look="go"
          disabled={s.busy || s.lines.length === 0}
          onClick={() =>
            unlessTroubled(
              s.lines.flatMap((l) => l.lots),
              () => void s.save(),
              choice.channel === 'waste' ? 'doing-away' : 'leaving',
            )
          }
        >
          Record it
        </Button>
      }
    >
      {s.trouble}
      {asked}
      {choice.channel === 'waste' ? <DecidedAlready lookup={s.night.lookup} /> : null}
      <ToWhom choice={choice} sending={s} />
      <Section title="What and how many">
        {s.products.length === 0 ? (
          <Empty>Nothing that was counted out is left.</Empty>
        ) : (
          <div className="figure-keys">
            {s.products.map((p) => (
              <button
                key={p.product}
                type="button"
                className="figure-key"
                aria-pressed={s.lines.some((l) => p.lots.some((lot) => l.lots.includes(lot.id)))}
                onClick={() => setAsking(p)}
              >
                <span>
                  {p.name}, <Left left={p.left} />
                </span>
                <TroubleWord trouble={saidOfTaken(p)} />
                <b>{s.taken.get(p.product)?.pieces ?? '–'}</b>
              </button>
            ))}
          </div>
        )}
      </Section>
      <Choice
        label="How known"
        value={s.how}
        onChange={s.setHow}
        options={countedHow.options.map((h) => ({ value: h, text: phrase(`how.${h}`) }))}
      />
      <WhenWho value={s.whenWho} onChange={s.setWhenWho} />
      {choice.channel === 'waste' ? (
        <ReasonField label="Why?" reasons={lossReasons} value={s.note} onChange={s.setNote} />
      ) : (
        <Field label="A few words, if you like" value={s.note} onChange={s.setNote} lines={2} maxLength={400} />
      )}
      <Caution />
      {asking ? <Pieces product={asking} sending={s} onClose={() => setAsking(undefined)} /> : null}
    </Screen>
  );
}

/** Food that was decided destroyed is off the stock: the bin that it goes into is not recorded once more. */
function DecidedAlready({ lookup }: { readonly lookup: Lookup }) {
  const destroyed = decidedDestroyed(lookup);
  if (destroyed.length === 0) return null;
  return (
    <Notice tone="ask" title="Decided destroyed already">
      <ul>
        {destroyed.map((d) => (
          <li key={d.id}>
            {d.name}, {d.code}: {d.pieces === null && d.mg === null ? 'all that was left' : ofLot(d)}
          </li>
        ))}
      </ul>
      <p>It is off the stock by that decision. Record here only what is thrown away besides.</p>
    </Notice>
  );
}

function ToWhom({ choice, sending: s }: { readonly choice: ChannelChoice; readonly sending: Sending }) {
  const { snapshot } = s.night.state;
  const stopped = new Set(snapshot.partyStopped.map((p) => p.party));
  const known = snapshot.party.filter((p) => choice.parties.includes(p.type) && !stopped.has(p.party));
  if (choice.parties.length === 0) return null;
  const options = [...new Map(known.map((p) => [p.party, p.name ?? 'no name']))].map(([value, text]) => ({ value, text }));
  return (
    <>
      <Choice
        label="To whom?"
        value={s.customer ?? ''}
        onChange={(id) => s.setCustomer(id === '' ? null : id)}
        options={[...options, { value: '', text: 'nobody on the list' }]}
      />
      <Choice
        label="Was somebody there?"
        value={s.unattended ? 'no' : 'yes'}
        onChange={(there) => s.setLeft(there === 'no')}
        options={[
          { value: 'yes', text: 'somebody took it' },
          { value: 'no', text: 'left with nobody there' },
        ]}
      />
    </>
  );
}

interface PiecesProps {
  readonly product: ProductOnHand;
  readonly sending: Sending;
  readonly onClose: () => void;
}

function Pieces({ product, sending, onClose }: PiecesProps) {
  const { pieces = '', lot = null } = sending.taken.get(product.product) ?? {};
  const lots = [{ value: '', text: 'any of them' }, ...product.lots.map((l) => ({ value: l.id, text: <OneLot lot={l} /> }))];
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
          label="Of which lot?"
          value={lot ?? ''}
          options={lots}
          onChange={(id) => sending.take(product.product, { pieces, lot: id === '' ? null : id })}
        />
      )}
      <div className="buttons">
        <Button look="go" onClick={onClose}>
          Done
        </Button>
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

const OneLot = ({ lot: { code, left, said } }: { readonly lot: LotOnHand }) => (
  <>
    {code}, {leftText(left)} <TroubleWord trouble={said} />
  </>
);

const leftText = (left: number | null): string => (left === null ? 'number not known' : `${whole(left)} left`);

/** What was recorded, and at once what is wrong with it. */
function OnRecord({ choice, sending: s }: { readonly choice: ChannelChoice; readonly sending: Sending }) {
  const lines = s.sent?.found.lines ?? [];
  const troubled = lines.filter((l) => l.troubled.length > 0);
  const short = s.products.filter((p) => p.left !== null && p.left < 0);
  return (
    <Screen
      title={choice.title}
      back={back}
      actions={
        <>
          <Button look="go" onClick={s.next}>
            {choice.channel === 'round' ? 'Next drop' : 'One more'}
          </Button>
          <LinkButton to={paths.out}>Done</LinkButton>
          {s.sent ? <LinkButton to={paths.correct(s.sent.id)}>Correct it</LinkButton> : null}
        </>
      }
    >
      <Notice tone="good" title={`On record${s.sent?.to ? `: ${s.sent.to}` : ''}`}>
        <p>{lines.map((l) => l.name).join(', ')}</p>
      </Notice>
      {troubled.map((l) => (
        <Notice key={l.name} tone="bad" title={`${l.name} should not have left`}>
          <p>
            {[...new Set(l.troubled.map((t) => phrase(`trouble.${t.trouble}`)))].join('; ')}. It is on record as a deviation: get it back or
            tell the person who decides, now.
          </p>
        </Notice>
      ))}
      {short.map((p) => (
        <Notice key={p.product} tone="ask" title={p.name}>
          <p>
            <Left left={p.left} />
          </p>
        </Notice>
      ))}
      <Caution />
    </Screen>
  );
}
