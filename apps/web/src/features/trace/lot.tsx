import { traceView, type TraceView } from '@bakehouse/contracts';
import type { Hazard } from '@bakehouse/records';
import { useState } from 'react';
import { whole } from '../../shared/format';
import { HoldLot } from '../../shared/hold-lot';
import { HazardChoice } from '../../shared/hazard-choice';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { LotsTable } from '../../shared/trace/lots-table';
import { alikeText, SameCode } from '../../shared/trace/alike';
import { ContactList, nobodyHasIt } from '../../shared/trace/contact-list';
import { isPartial, noneText, OnlyAPart } from '../../shared/trace/partial';
import { TraceSections } from '../../shared/trace/trace-sections';
import { InTheHouse } from '../../shared/trace/where-it-went';
import { amountText } from '../../shared/trace/words';
import { Button, Caution, LinkButton, Notice, Screen, Section } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';

/** One lot, traced forward: whom to contact, what is still here, where it went, what holds it. */
export function Lot({ id }: { readonly id: string }) {
  const [hazard, setHazard] = useState<Hazard | null>(null);
  const {
    site: { zone },
  } = useTabletState();
  const loaded = useLoaded('/lots/{lot}/trace', traceView, { params: { path: { lot: id }, query: hazard === null ? {} : { hazard } } });
  return (
    <Shown of={loaded}>
      {(trace) => (
        <Screen
          title={titleOf(trace, id)}
          back={{ to: office.home, text: 'Office' }}
          actions={
            <>
              <LinkButton to={office.recallNew(id, hazard)} look="go">
                Open a recall
              </LinkButton>
              <HoldLot
                lot={id}
                name={titleOf(trace, id)}
                alike={trace.alike.map((l) => ({ lot: l.lot, text: alikeText(l, zone) }))}
                onDone={() => void loaded.reload()}
              />
              <LinkButton to={office.lotFrom(id)}>Trace back</LinkButton>
              {isPartial(trace) ? null : <Button onClick={() => window.print()}>Print</Button>}
            </>
          }
        >
          <OnlyAPart trace={trace} />
          <SameCode trace={trace} zone={zone} title="Other lots have the same lot code: they may be the same lot of the supplier’s" />
          <Summary trace={trace} />
          <Section title={`${isPartial(trace) ? 'A part of the contact list' : 'Contact list'}: ${whole(trace.contacts.length)}`}>
            <ContactList ring={trace.contacts} zone={zone} contactsShown={trace.contactsShown} none={noneText(trace, nobodyHasIt)} />
          </Section>
          <Section title="Still in the house">
            <InTheHouse trace={trace} />
          </Section>
          <Section title="Hazard">
            <p>
              A germ or an allergen also reaches what the same bowls and scales made before they were cleaned: say so, and that is added as
              possible.
            </p>
            <HazardChoice value={hazard} onChange={setHazard} />
          </Section>
          <TraceSections trace={trace} zone={zone} />
        </Screen>
      )}
    </Shown>
  );
}

/** One lot, traced back: what it was made from. */
export function LotFrom({ id }: { readonly id: string }) {
  const {
    site: { zone },
  } = useTabletState();
  const loaded = useLoaded('/lots/{lot}/trace', traceView, { params: { path: { lot: id }, query: { direction: 'backward' } } });
  return (
    <Shown of={loaded}>
      {(trace) => (
        <Screen
          title={`Trace back: ${titleOf(trace, id)}`}
          back={{ to: office.lot(id), text: 'Trace forward' }}
          actions={isPartial(trace) ? null : <Button onClick={() => window.print()}>Print</Button>}
        >
          <OnlyAPart trace={trace} />
          <LotsTable trace={trace} zone={zone} shares={false} />
          <Caution />
        </Screen>
      )}
    </Shown>
  );
}

function titleOf(trace: TraceView, id: string): string {
  const lot = trace.lots.find((l) => l.id === id);
  return lot ? `${lot.name}${lot.code === null ? ', no code' : `, lot ${lot.code}`}` : 'A lot';
}

/** How much is left at most, where nobody knows how much is. */
const leftAtMost = (balance: TraceView['suspectBalances'][number]['balance'] | undefined): string =>
  typeof balance?.atMost === 'number' ? `of it left, at most ${amountText(balance.atMost, balance.measure)}` : 'of it left';

function Summary({ trace }: { readonly trace: TraceView }) {
  const [own] = trace.suspectBalances;
  const left = own?.balance.onHand;
  const unaccounted = own?.balance.unaccounted ?? null;
  const figure = (value: string, of: string) => (
    <li key={of}>
      <b>{value}</b>
      <span>{of}</span>
    </li>
  );
  const more = own?.balance.finding === 'more-than-there-was' && unaccounted !== null ? -unaccounted : null;
  return (
    <>
      {own === undefined || more === null ? null : (
        <Notice tone="bad" title={`More taken than there was: by ${amountText(more, own.balance.measure)}; count it`} />
      )}
      <ul className="figures">
        {figure(whole(trace.contacts.length), isPartial(trace) ? 'to contact that you may see, of more' : 'to contact')}
        {figure(
          left ? amountText(left.amount, own?.balance.measure ?? 'mg') : 'not known',
          left?.by === 'count' ? 'of it left, counted' : left ? 'of it left by the records' : leftAtMost(own?.balance),
        )}
        {figure(whole(trace.lots.filter((l) => l.certain).length - trace.suspects.length), 'lots surely hold it')}
        {figure(whole(trace.lots.filter((l) => !l.certain).length), 'lots may hold it')}
        {unaccounted === null || unaccounted === 0
          ? null
          : figure(
              amountText(Math.abs(unaccounted), own?.balance.measure ?? 'mg'),
              unaccounted > 0 ? (own?.balance.withoutAmount === 0 ? 'unaccounted' : 'unaccounted at most') : 'more than received or made',
            )}
      </ul>
    </>
  );
}
