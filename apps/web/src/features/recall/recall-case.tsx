import { countText } from '@bakehouse/kernel';
import { phrase, toldOfAll, type PhraseKey, type Row } from '@bakehouse/records';
import { closedOverTexts } from '@bakehouse/views';
import { recallView, type RecallView } from '@bakehouse/contracts';
import { useEffect } from 'react';
import { whole } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { useTable, useTabletState } from '../../shared/tablet-context';
import { SameCode } from '../../shared/trace/alike';
import { ContactList, nobodyHasIt } from '../../shared/trace/contact-list';
import { isPartial, noneText, OnlyAPart } from '../../shared/trace/partial';
import { TraceSections } from '../../shared/trace/trace-sections';
import { dayTime } from '../../shared/trace/words';
import { Button, Screen, Section, StateWord } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { InformFirst } from './inform-first';
import { AuthorityAndPublic } from './notified';
import { ContactKeys } from './contact-keys';
import { Close } from './close';
import { Changed } from './changed';
import { CaseInTheHouse } from './in-the-house';
import { ClearFirst } from './clear-first';
import { CustomerNotice, Papers } from './papers';
import { PrintedFoot, printContactList } from './printed';

/** One case, from the hold to the close: what is on hold, whom to contact, what does not add up, what changed since. */
export function RecallCase({ id }: { readonly id: string }) {
  const loaded = useLoaded('/recalls/{recall}', recallView, { params: { path: { recall: id } } });
  return <Shown of={loaded}>{(recall) => <Case recall={recall} reload={loaded.reload} />}</Shown>;
}

function Case({ recall, reload }: { readonly recall: RecallView; readonly reload: () => Promise<void> }) {
  const {
    site: { zone },
    snapshot,
    asOf,
  } = useTabletState();
  const { tablet } = useTable();
  useEffect(() => void tablet.refresh(), [tablet, recall.id]); // so that the device knows the case, and calls are kept without a network
  useEffect(() => {
    if (asOf !== null) void reload();
  }, [asOf, reload]); // more may have come to light
  const ready = snapshot.recallCase.some((c) => c.id === recall.id);
  const open = recall.closedAt === null;
  const ring = recall.trace.contacts.map((e) =>
    withOwnCalls(
      e,
      snapshot.recallContact.filter((c) => c.recall === recall.id),
    ),
  );
  const left = ring.filter((e) => !e.reached).length;
  const part = isPartial(recall.trace);
  return (
    <Screen
      title={`${recall.practice ? 'Practice recall' : 'Recall'}: ${recall.hazardName}`}
      back={{ to: office.recalls, text: 'Recalls' }}
      actions={part ? null : <PrintKeys />}
    >
      <PrintedFoot recall={recall} zone={zone} />
      <OnlyAPart trace={recall.trace} />
      <SameCode trace={recall.trace} zone={zone} title="The same lot code, and not in this case" />
      <Standing recall={recall} zone={zone} />
      <InformFirst sites={recall.sites} practice={recall.practice} />
      <AuthorityAndPublic recall={recall} zone={zone} ready={ready} onRecorded={() => void reload()} />
      <Changed recall={recall} onHeld={reload} />
      <ClearFirst recall={recall} />
      <Section title={`${recall.practice ? 'Practice: ' : ''}${contactTitle(part, left, ring.length)}`}>
        <ContactList
          ring={ring}
          contactsShown={recall.trace.contactsShown}
          none={noneText(recall.trace, nobodyHasIt)}
          zone={zone}
          closedAt={recall.closedAt}
          actions={(e) => (
            <>
              <ContactKeys
                recall={recall.id}
                party={e.party}
                name={e.name ?? 'them'}
                went={e}
                ready={ready}
                onRecorded={() => void reload()}
              />
              {part ? null : <CustomerNotice recall={recall.id} customer={e.party} name={e.name ?? 'them'} />}
            </>
          )}
        />
      </Section>
      <CaseInTheHouse recall={recall} zone={zone} onDecided={() => void reload()} />
      <CasePapers recall={recall} zone={zone} />
      <TraceSections trace={recall.trace} recall={recall} zone={zone} />
      {open ? <Close recall={recall} ring={ring} onClosed={() => void reload()} /> : null}
    </Screen>
  );
}

const PrintKeys = () => (
  <>
    <Button onClick={printContactList}>Print the contact list</Button>
    <Button onClick={() => window.print()}>Print all</Button>
  </>
);

function CasePapers({ recall, zone }: { readonly recall: RecallView; readonly zone: string }) {
  return (
    <Section title="Papers">
      <p>
        Scope as it was frozen at {dayTime(recall.openedAt, zone)}: {countText(recall.scopeLots, 'lot')}, code{' '}
        {recall.scopeHash.slice(0, 12)}.
      </p>
      <Papers recall={recall.id} practice={recall.practice} />
    </Section>
  );
}

function contactTitle(part: boolean, left: number, all: number): string {
  if (part && all === 0) return 'A part of the contact list: nobody that you may see';
  if (part) return `A part of the contact list: ${whole(left)} of the ${whole(all)} that you may see left`;
  return left === 0 ? `All ${whole(all)} are informed` : `Contact list: ${whole(left)} of ${whole(all)} left`;
}

function Standing({ recall, zone }: { readonly recall: RecallView; readonly zone: string }) {
  const open = recall.closedAt === null;
  return (
    <>
      {recall.practice ? (
        <>
          <p className="practice-mark" aria-hidden="true">
            PRACTICE
          </p>
          <p className="practice">Practice: nothing is put on hold. Say “this is a practice” first when you contact anybody.</p>
        </>
      ) : open ? (
        <p className="real">
          This is real.{' '}
          {recall.held === 1 ? '1 lot is on hold; nothing of it may be' : `${whole(recall.held)} lots are on hold; nothing of them may be`}{' '}
          used or sent out.
        </p>
      ) : null}
      <p>
        {open ? (
          <StateWord shape="gate" tone={recall.practice ? 'ask' : 'bad'}>
            open
          </StateWord>
        ) : (
          <StateWord shape="disc" tone="good">
            closed
          </StateWord>
        )}{' '}
        since {dayTime(recall.closedAt ?? recall.openedAt, zone)}. {phrase(`hazard.${recall.hazard}` as PhraseKey)}.{' '}
        {recall.said === null ? '' : `Said: “${recall.said}”`}
      </p>
      {open ? null : <ClosedCase recall={recall} zone={zone} />}
    </>
  );
}

/** What a closed case says: who closed it, and that what it still holds stays on hold and is decided on here. */
function ClosedCase({ recall, zone }: { readonly recall: RecallView; readonly zone: string }) {
  const { closedAt, closedBy, closedOver, whyOnHold, conclusion, held } = recall;
  if (closedAt === null) return null;
  return (
    <>
      {conclusion === null ? null : <p>What was found and done: “{conclusion}”</p>}
      <p>
        This case was closed on {dayTime(closedAt, zone)}
        {closedBy === null ? '' : ` by ${closedBy}`}.{' '}
        {held === 0
          ? 'Nothing is on hold for it.'
          : `${whole(held)} ${held === 1 ? 'lot stays' : 'lots stay'} on hold for it until decided on below.`}
        {whyOnHold === null ? '' : ` Why it was closed so: “${whyOnHold}”`}
      </p>
      {closedOverTexts(closedOver).map((text) => (
        <p key={text}>{text}</p>
      ))}
    </>
  );
}

type Entry = RecallView['trace']['contacts'][number];

/** Calls that this device has recorded and the service may not know of yet. */
function withOwnCalls(e: Entry, own: readonly Row<'recallContact'>[]): Entry {
  const known = new Set(e.calls.map((c) => `${c.at} ${c.answer}`));
  const calls = [
    ...e.calls,
    ...own
      .filter((c) => c.party === e.party && !known.has(`${c.at} ${c.answer}`))
      .map(({ party, answer, piecesHeld, at }) => ({ party, answer, piecesHeld, said: null, at })),
  ];
  return { ...e, calls, reached: toldOfAll(calls, e.party, e.lastAt) };
}
