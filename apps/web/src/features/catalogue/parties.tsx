import { partyList, type PartyList } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { useMemo, type ReactNode } from 'react';
import { useLocation } from 'wouter';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { SetUpLink } from '../../shared/set-up-link';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { LinkButton, Screen, Section, StateWord } from '../../ui';
import { Beside, DataTable, type Column } from '../../ui/table';
import { CatalogueTabs } from './catalogue-tabs';
import { PartyPage } from './party';

type Party = PartyList['parties'][number];

/** Whom goods come from and go to, and whom to contact there: those first whose eaters are more easily hurt. */
export function Parties({ opened }: { readonly opened: string | undefined }) {
  const loaded = useLoaded('/catalogue/parties', partyList);
  const { site } = useTabletState();
  const [, go] = useLocation();
  const columns = useMemo(() => columnsIn(site.zone), [site.zone]);
  const table = (label: string, rows: readonly Party[], none: ReactNode) => (
    <DataTable
      label={label}
      columns={columns}
      rows={rows}
      keyOf={(p) => p.party}
      to={(p) => office.party(p.party)}
      opened={opened}
      none={none}
    />
  );
  const list = (
    <Screen
      title="Suppliers and customers"
      wide
      back={{ to: office.home, text: 'Office' }}
      actions={
        <>
          <LinkButton to={office.partiesSheet}>Import from a sheet</LinkButton>
          <LinkButton to={office.party('new')} look="go">
            Somebody new
          </LinkButton>
        </>
      }
    >
      <CatalogueTabs here={office.parties} />
      <Shown of={loaded}>
        {({ parties, contactsShown }) => (
          <>
            {contactsShown ? null : <p>Open one and give your PIN to see whom to contact there.</p>}
            <Section title="Goods come from">
              {table(
                'Suppliers',
                parties.filter((p) => p.type === 'supplier'),
                <>
                  Nobody is on the list yet. Begin with whom the flour comes from. <SetUpLink />
                </>,
              )}
            </Section>
            <Section title="Goods go to, in the order to contact">
              {table('Customers', toContact(parties), 'No customer is on the list yet. Those who buy at the counter need not be.')}
            </Section>
          </>
        )}
      </Shown>
    </Screen>
  );
  return (
    <Beside
      opened={opened}
      closed={office.parties}
      list={list}
      shown={(id) => <PartyPage key={id} id={id} loaded={loaded} onDone={() => go(office.parties)} />}
    />
  );
}

const toContact = (parties: readonly Party[]): Party[] =>
  parties
    .filter((p) => p.type !== 'supplier')
    .sort((a, b) => Number(b.vulnerable) - Number(a.vulnerable) || Number(b.type === 'donation') - Number(a.type === 'donation'));

function columnsIn(zone: string): readonly Column<Party>[] {
  const stopped = (p: Party): string => (p.stopped === null ? '' : `stopped ${dayTime(p.stopped, zone)}`);
  return [
    { id: 'name', head: 'Name', text: (p) => p.name ?? 'name withheld' },
    { id: 'type', head: 'What they are', text: (p) => phrase(`party.${p.type}`) },
    {
      id: 'first',
      head: 'In a recall',
      text: (p) => (p.vulnerable ? 'contact first' : ''),
      shown: (p) =>
        p.vulnerable ? (
          <StateWord shape="handset" tone="ask">
            contact first
          </StateWord>
        ) : null,
    },
    { id: 'unattended', head: 'Left', text: (p) => (p.unattended ? 'with nobody there' : ''), spare: true },
    { id: 'contact', head: 'Contact', text: contactOf, look: 'wrap', spare: true },
    {
      id: 'stopped',
      head: 'Since',
      text: (p) => (p.stopped === null ? `accepted ${dayTime(p.since, zone)}` : stopped(p)),
      by: (p) => p.stopped ?? p.since,
      shown: (p) =>
        p.stopped === null ? (
          `accepted ${dayTime(p.since, zone)}`
        ) : (
          <StateWord shape="bar" tone="calm">
            {stopped(p)}
          </StateWord>
        ),
    },
  ];
}

function contactOf({ contact }: Party): string {
  if (contact === null) return '';
  return [contact.name, contact.phone, contact.email].filter((c) => c !== null && c !== '').join(', ') || 'no contact is known';
}
