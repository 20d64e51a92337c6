import { phrase } from '@bakehouse/records';
import { decidedDestroyed, type Lookup } from '@bakehouse/views';
import { Button, Caution, Choice, Empty, Field, Notice, Screen } from '../../ui';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { paths } from '../../shared/night/paths';
import { WhenWho } from '../../shared/night/when-who';
import { lossReasons, ReasonField } from '../../shared/reason-field';
import { ofLot } from '../../shared/trace/words';
import { channels, titleOf, type ChannelChoice } from './channels';
import { unsaidOf, useContents, WhatIsInIt } from './contents';
import { OnRecord } from './on-record';
import { OrderLines } from './order-lines';
import { StallFields } from './stall-fields';
import { ToWhom } from './to-whom';
import { countedHow, useSending } from './use-sending';

const back = { to: paths.out, text: 'Send out' };

/** Pieces to one customer, to a stall, into the bin: what they had last, changed by exception, of any lot that is there unless somebody says which. */
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

/** Nobody eats what is thrown away: what it contains is not asked. */
const nothing: ReturnType<typeof useSending>['here'] = [];

function Form({ choice }: { readonly choice: ChannelChoice }) {
  const s = useSending(choice);
  const { unlessTroubled, asked } = useAllTheSame();
  const contentsOf = useContents(choice.channel === 'waste' ? nothing : s.here);
  const goes = new Set(s.lines.flatMap((l) => l.lots));
  const going = s.here.filter((p) => p.lots.some((l) => goes.has(l.id)));
  if (s.sent) return <OnRecord choice={choice} sending={s} />;
  return (
    <Screen
      title={titleOf(choice, s.night.state.snapshot, s.night.now)}
      back={back}
      actions={
        <Button
          look="go"
          disabled={s.busy || s.lines.length === 0 || !s.receiver}
          onClick={() =>
            unlessTroubled(
              s.lines.flatMap((l) => l.lots),
              () => void s.save(),
              choice.channel === 'waste' ? 'doing-away' : 'leaving',
              unsaidOf(going, contentsOf),
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
      {choice.channel === 'stall' ? <StallFields said={s.stall} onChange={s.setStall} /> : null}
      <OrderLines sending={s} />
      {choice.channel === 'waste' ? null : <WhatIsInIt products={s.here} contentsOf={contentsOf} />}
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
        <Field
          label="A few words, if you like"
          value={s.note}
          onChange={s.setNote}
          lines={2}
          maxLength={choice.channel === 'stall' || s.toNobody !== null ? 200 : 400}
        />
      )}
      <Caution />
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
