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
import { Button, LinkButton, Screen, Section } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { Backward } from './backward';
import { LotFacts } from './facts';
import { Forward } from './forward';
import { LotHeading, lotAbove, lotOf, lotTitle, Ways } from './head';
import { CasesOf, concernsOf, LotStanding } from './standing';
import './flow.css';
import './trace.css';

/** One lot, traced forward: how it stands, where it went, whom to contact, what is still here, what holds it. */
export function Lot({ id }: { readonly id: string }) {
  const [hazard, setHazard] = useState<Hazard | null>(null);
  const {
    site: { zone },
  } = useTabletState();
  const loaded = useLoaded('/lots/{lot}/trace', traceView, { params: { path: { lot: id }, query: hazard === null ? {} : { hazard } } });
  return (
    <Shown of={loaded}>
      {(trace) => {
        const lot = lotOf(trace, id);
        const title = lotTitle(lot);
        return (
          <Screen
            title={title}
            heading={<LotHeading lot={lot} />}
            above={lotAbove(lot)}
            beside={<LotStanding trace={trace} lot={id} title={title} zone={zone} onDone={() => void loaded.reload()} />}
            wide
            back={{ to: office.home, text: 'Office' }}
            actions={<Keys trace={trace} id={id} title={title} hazard={hazard} zone={zone} onHeld={() => void loaded.reload()} />}
          >
            <OnlyAPart trace={trace} />
            <CasesOf trace={trace} zone={zone} />
            <SameCode trace={trace} zone={zone} title="Other lots have the same lot code: they may be the same lot of the supplier’s" />
            {lot === undefined ? null : <LotFacts trace={trace} lot={lot} zone={zone} />}
            <Ways lot={id} forward />
            <Forward trace={trace} title={title} code={lot?.code ?? lot?.name ?? 'it'} zone={zone} />
            <Section title={`${isPartial(trace) ? 'A part of the contact list' : 'Contact list'}: ${whole(trace.contacts.length)}`}>
              <ContactList ring={trace.contacts} zone={zone} contactsShown={trace.contactsShown} none={noneText(trace, nobodyHasIt)} />
            </Section>
            <Section title="Still in the house">
              <InTheHouse trace={trace} />
            </Section>
            <Section title="Hazard">
              <p>
                {trace.hazard === null
                  ? 'None is chosen: this is the widest scope, with what the same bowls and scales made before they were cleaned as possible. A splinter or a chemical does not reach those.'
                  : 'A germ or an allergen also reaches what the same bowls and scales made before they were cleaned, as possible.'}
              </p>
              <HazardChoice value={hazard ?? trace.hazard} onChange={setHazard} />
            </Section>
            <TraceSections trace={trace} zone={zone} />
          </Screen>
        );
      }}
    </Shown>
  );
}

interface KeysProps {
  readonly trace: TraceView;
  readonly id: string;
  readonly title: string;
  readonly hazard: Hazard | null;
  readonly zone: string;
  readonly onHeld: () => void;
}

function Keys({ trace, id, title, hazard, zone, onHeld }: KeysProps) {
  const inCase = concernsOf(trace, id).find((c) => c.type === 'recall') ?? trace.cases.find((c) => !c.practice);
  return (
    <>
      {inCase === undefined ? null : (
        <LinkButton to={office.recall(inCase.id)} look="go">
          Open the case
        </LinkButton>
      )}
      <LinkButton to={office.recallNew(id, hazard)} look={inCase === undefined ? 'go' : 'plain'}>
        Open a recall
      </LinkButton>
      <HoldLot lot={id} name={title} alike={trace.alike.map((l) => ({ lot: l.lot, text: alikeText(l, zone) }))} onDone={onHeld} />
      {isPartial(trace) ? null : <Button onClick={() => window.print()}>Print</Button>}
    </>
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
      {(trace) => {
        const lot = lotOf(trace, id);
        const title = lotTitle(lot);
        return (
          <Screen
            title={`Trace back: ${title}`}
            heading={<LotHeading lot={lot} />}
            above={`Trace back. ${lotAbove(lot)}`}
            wide
            back={{ to: office.lot(id), text: 'Trace forward' }}
            actions={isPartial(trace) ? null : <Button onClick={() => window.print()}>Print</Button>}
          >
            <OnlyAPart trace={trace} />
            {lot === undefined ? null : <LotFacts trace={trace} lot={lot} zone={zone} />}
            <Ways lot={id} forward={false} />
            {lot === undefined ? null : <Backward trace={trace} title={title} at={lot.at} zone={zone} />}
            <Section title="Every lot that went into it">
              <LotsTable trace={trace} zone={zone} shares={false} />
            </Section>
          </Screen>
        );
      }}
    </Shown>
  );
}
