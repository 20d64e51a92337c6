import { formulaDraftView, planDraftView } from '@bakehouse/contracts';
import { starterFormulas, starterPlan } from '@bakehouse/records';
import { systemClock, systemIds } from '@bakehouse/offline';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { office } from '../../shared/office-paths';
import { PlanPoints } from '../../shared/plan-points';
import { useTabletState } from '../../shared/tablet-context';
import { TroubleNotice } from '../../shared/trouble-notice';
import { troubleOf, type Trouble } from '../../shared/trouble-of';
import { Shown } from '../../shared/use-loaded';
import { useWho } from '../../shared/who';
import { Button, Notice, Screen, Section } from '../../ui';
import { knownOf, useMaterials } from './known';
import { StarterCard } from './starter-card';
import './setup.css';

const unreached = 'A draft is made on line. Try again when the network is back.';

/** Formulas and a plan to begin with. Taking one makes a draft and approves nothing. */
export function Starters() {
  const materials = useMaterials();
  return (
    <Screen title="Starters" back={{ to: office.setup, text: 'Set-up' }}>
      <Notice tone="ask" title="Nobody has approved these">
        <p>
          They were made up to save typing. A competent person has to validate what they say for this house, and the rules of your local
          food-safety authority come first. Taking one makes a draft of your own; it is in force only when somebody of yours signs it.
        </p>
      </Notice>
      <Shown of={materials}>
        {(all) => (
          <>
            <Section title="Formulas">
              <ul className="cards wide">
                {starterFormulas.map((starter) => (
                  <li key={starter.key} className="card">
                    <StarterCard starter={starter} known={knownOf(all)} onListed={() => materials.reload()}>
                      <TakeFormula starter={starter.key} />
                    </StarterCard>
                  </li>
                ))}
              </ul>
            </Section>
            <PlanStarter />
          </>
        )}
      </Shown>
    </Screen>
  );
}

function TakeFormula({ starter }: { readonly starter: (typeof starterFormulas)[number]['key'] }) {
  const [id] = useState(() => systemIds.entry(systemClock.now())); // once: pressing twice makes one draft
  const [trouble, setTrouble] = useState<Trouble>();
  const { ask } = useWho();
  const [, go] = useLocation();
  const take = async (): Promise<void> => {
    const reply = await ask('post', '/formulas/drafts', formulaDraftView, { body: { id, starter } });
    if (reply.as === 'ok') go(office.draft(reply.value.id));
    else setTrouble(troubleOf(reply, unreached));
  };
  return (
    <>
      <TroubleNotice of={trouble} />
      <Button needs="manage.formulas" onClick={() => void take()}>
        Take it into my drafts
      </Button>
    </>
  );
}

function PlanStarter() {
  const [id] = useState(() => systemIds.entry(systemClock.now()));
  const [trouble, setTrouble] = useState<Trouble>();
  const { site } = useTabletState();
  const { ask } = useWho();
  const [, go] = useLocation();
  const take = async (): Promise<void> => {
    const reply = await ask('post', '/plans/drafts', planDraftView, { body: { id, site: site.id, starter: starterPlan.key } });
    if (reply.as === 'ok') go(office.planDraft(reply.value.id));
    else setTrouble(troubleOf(reply, unreached));
  };
  return (
    <Section title={`A plan: ${starterPlan.content.name}`}>
      <p>
        {starterPlan.says} None of its limits is validated: where each figure comes from stands beside it, and in its place your own
        evidence has to stand before the plan can be put in force.
      </p>
      <TroubleNotice of={trouble} />
      <div className="buttons">
        <Button needs="manage.plans" onClick={() => void take()}>
          Take this plan into my drafts
        </Button>
      </div>
      <PlanPoints plan={{ content: { ...starterPlan.content, team: 'nobody yet' }, loosened: [] }} />
    </Section>
  );
}
