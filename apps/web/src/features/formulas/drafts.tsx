import { draftList, formulaDraftView } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { systemClock, systemIds } from '@bakehouse/offline';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { formulasInUse } from '../../shared/in-force';
import { DraftsInHand } from '../../shared/drafts/in-hand';
import { office } from '../../shared/office-paths';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Button, LinkButton, Screen, Section } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { useWho } from '../../shared/who';
import { Pick } from '../../shared/drafts/fields';
import '../../shared/drafts/drafts.css';
import { Retire } from './retire';
import { troubleOf } from '../../shared/trouble-of';
import { TroubleNotice } from '../../shared/trouble-notice';

/** Formulas that are being worked on, and a new draft from one in force or from nothing. */
export function Drafts() {
  const loaded = useLoaded('/formulas/drafts', draftList);

  return (
    <Screen title="Drafts of formulas" back={{ to: office.formulas, text: 'Formulas' }}>
      <NewDraft />
      <Shown of={loaded}>
        {(drafts) => (
          <>
            <DraftsInHand drafts={drafts} to={office.draft} none="Nobody is working on a formula just now." fromNothing=", a new formula" />
            <Retire />
          </>
        )}
      </Shown>
    </Screen>
  );
}

function NewDraft() {
  const [id] = useState(() => systemIds.entry(systemClock.now())); // once: pressing twice makes one draft
  const [formula, setFormula] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const { snapshot } = useTabletState();
  const formulas = formulasInUse(snapshot, useNow(60_000));
  const { ask } = useWho();
  const [, go] = useLocation();
  const make = async (): Promise<void> => {
    const reply = await ask('post', '/formulas/drafts', formulaDraftView, { body: formula === null ? { id } : { id, formula } });
    if (reply.as === 'ok') go(office.draft(reply.value.id));
    else setTrouble(troubleOf(reply, 'A draft is made on line. Try again when the network is back.'));
  };
  return (
    <Section title="A new draft">
      <TroubleNotice of={trouble} />
      <Pick
        label="From"
        value={formula}
        nothing="nothing: a new formula"
        options={formulas.map((f) => ({ value: f.formula, text: `${f.name}, ${phrase(`formula.${f.type}`)}` }))}
        onChange={setFormula}
      />
      <div className="buttons">
        <Button look="go" onClick={() => void make()}>
          Begin
        </Button>
        <LinkButton to={office.starters}>Take a starter</LinkButton>
      </div>
    </Section>
  );
}
