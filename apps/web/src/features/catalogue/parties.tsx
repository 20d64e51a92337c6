import { partyList, type PartyList } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { useState } from 'react';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Empty, LinkButton, Screen, Section, StateWord } from '../../ui';
import { SetUpLink } from '../../shared/set-up-link';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { CatalogueTabs } from './catalogue-tabs';
import { PartySheet } from './party-sheet';
import { useProven } from './use-proven-act';

type Party = PartyList['parties'][number];

/** Whom goods come from and go to, and whom to contact there: those first whose eaters are more easily hurt. */
export function Parties() {
  const loaded = useLoaded('/catalogue/parties', partyList);
  const prove = useProven();
  const [open, setOpen] = useState<string>();
  const show = async (id: string): Promise<void> => {
    if (!(await prove())) return;
    await loaded.reload(); // whom to contact there is only for somebody whose PIN was given
    setOpen(id);
  };
  return (
    <Screen
      title="Suppliers and customers"
      back={{ to: office.home, text: 'Office' }}
      actions={
        <>
          <LinkButton to={office.partiesSheet}>Import from a sheet</LinkButton>
          <Button look="go" onClick={() => void show('new')}>
            Somebody new
          </Button>
        </>
      }
    >
      <CatalogueTabs here={office.parties} />
      <Shown of={loaded}>
        {({ parties, contactsShown }) => {
          const chosen = parties.find((p) => p.party === open);
          const close = (): void => setOpen(undefined);
          const done = async (): Promise<void> => {
            await loaded.reload();
            close();
          };
          return (
            <>
              {contactsShown ? null : <p>Tap one and give your PIN to see whom to contact there.</p>}
              {parties.length === 0 ? (
                <Empty>
                  Nobody is on the list yet. Begin with whom the flour comes from. <SetUpLink />
                </Empty>
              ) : null}
              <Group title="Goods come from" of={parties.filter((p) => p.type === 'supplier')} onOpen={(id) => void show(id)} />
              <Group title="Goods go to, in the order to contact" of={toContact(parties)} onOpen={(id) => void show(id)} />
              {chosen || open === 'new' ? <PartySheet key={open} party={chosen} onDone={() => void done()} onClose={close} /> : null}
            </>
          );
        }}
      </Shown>
    </Screen>
  );
}

const toContact = (parties: readonly Party[]): Party[] =>
  parties
    .filter((p) => p.type !== 'supplier')
    .sort((a, b) => Number(b.vulnerable) - Number(a.vulnerable) || Number(b.type === 'donation') - Number(a.type === 'donation'));

function Group({ title, of, onOpen }: { readonly title: string; readonly of: readonly Party[]; readonly onOpen: (id: string) => void }) {
  const { site } = useTabletState();
  if (of.length === 0) return null;
  return (
    <Section title={title}>
      <ul className="rows">
        {of.map((p) => (
          <li key={p.party}>
            <button type="button" className="row" onClick={() => onOpen(p.party)}>
              <span className="row-main">
                <strong>{p.name ?? 'name withheld'}</strong> {phrase(`party.${p.type}`)}
                {p.unattended ? ', left with nobody there' : ''}
                <br />
                <span className="faint">{contactOf(p)}</span>
              </span>
              {p.vulnerable ? (
                <StateWord shape="handset" tone="ask">
                  contact first
                </StateWord>
              ) : null}
              {p.stopped === null ? null : <StateWord shape="bar" tone="calm">{`stopped ${dayTime(p.stopped, site.zone)}`}</StateWord>}
            </button>
          </li>
        ))}
      </ul>
    </Section>
  );
}

function contactOf({ contact }: Party): string {
  if (contact === null) return '';
  return [contact.name, contact.phone, contact.email].filter((c) => c !== null && c !== '').join(', ') || 'no contact is known';
}
