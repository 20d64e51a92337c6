import { draftList, planDraftView, planOverview } from '@bakehouse/contracts';
import { systemClock, systemIds } from '@bakehouse/offline';
import { useState } from 'react';
import { flushSync } from 'react-dom';
import { useLocation, useRoute } from 'wouter';
import { planInForce, planWarnings } from '@bakehouse/records';
import { DraftsInHand } from '../../shared/drafts/in-hand';
import { office } from '../../shared/office-paths';
import { SetUpLink } from '../../shared/set-up-link';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Empty, LinkButton, Screen } from '../../ui';
import { Beside } from '../../ui/table';
import { LoadingText, Shown, useLoaded } from '../../shared/use-loaded';
import { useWho } from '../../shared/who';
import { SignedWith } from '../../shared/plan-warnings';
import { Loosened } from '../../shared/loosened';
import { useMaterialOrFormula } from '../../shared/plan-names';
import { PlanHistory } from './plan-history';
import { PointPage, PointTable } from './point-table';
import { troubleOf } from '../../shared/trouble-of';
import { TroubleNotice } from '../../shared/trouble-notice';

/** The plan in force at this site, to read, and every version that there was. */
export function Plan() {
  const nameOf = useMaterialOrFormula();
  const { snapshot, site, loading } = useTabletState();
  const plan = planInForce(snapshot.planVersion, site.id, useNow(60_000));
  const [, params] = useRoute<{ readonly key: string }>('/office/plan/point/:key');
  const opened = params === null ? undefined : decodeURIComponent(params.key);
  const [, go] = useLocation();
  const { reply } = useLoaded('/plans', planOverview);
  const signers = reply?.as === 'ok' ? reply.value.history : [];
  const print = (): void => {
    flushSync(() => go(office.plan)); // all of it, and not the point that is open
    window.print();
  };
  const list = (
    <Screen
      title={plan?.content.name ?? 'The plan'}
      wide
      back={{ to: office.home, text: 'Office' }}
      actions={
        <>
          <LinkButton to={office.planDrafts}>The next version</LinkButton>
          {plan ? <Button onClick={print}>Print</Button> : null}
        </>
      }
    >
      {loading ? <LoadingText what="which plan is in force" /> : null}
      {plan ? (
        <>
          <p>
            Version {plan.number}, in force since {dayTime(plan.since, site.zone)}.
          </p>
          <Loosened of={plan.loosened} nameOf={nameOf} />
          <SignedWith warnings={planWarnings(plan.content.points)} signedBy={signers.find((s) => s.id === plan.id)?.signed?.name ?? null} />
          <PointTable plan={plan} opened={opened} />
        </>
      ) : loading ? null : (
        <Empty>
          No HACCP plan is in force here. The food-safety lead puts one in force, signed; until then nothing is released by rule.{' '}
          <SetUpLink />
        </Empty>
      )}
      <PlanHistory signers={signers} />
    </Screen>
  );
  return <Beside opened={opened} closed={office.plan} list={list} shown={(key) => <PointPage key={key} id={key} plan={plan} />} />;
}

/** Drafts of the next version, for those who answer for food safety: theirs is the PIN that is asked for. */
export function PlanDrafts() {
  const { snapshot, site } = useTabletState();
  const plan = planInForce(snapshot.planVersion, site.id, useNow(60_000));
  const loaded = useLoaded('/plans/drafts', draftList);
  return (
    <Screen title="The next version of the plan" back={{ to: office.plan, text: 'Plan' }}>
      <p>The food-safety lead writes it and puts it in force, signed. Until then the version in force holds.</p>
      <Shown of={loaded}>
        {(drafts) => (
          <>
            <NewDraft series={plan?.series} />
            <DraftsInHand drafts={drafts} to={office.planDraft} none="Nobody is working on the plan just now." />
          </>
        )}
      </Shown>
    </Screen>
  );
}

function NewDraft({ series }: { readonly series: string | undefined }) {
  const [id] = useState(() => systemIds.entry(systemClock.now())); // once: pressing twice makes one draft
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const { site } = useTabletState();
  const { ask } = useWho();
  const [, go] = useLocation();
  const begin = async (): Promise<void> => {
    const body = series === undefined ? { id, site: site.id } : { id, series };
    const reply = await ask('post', '/plans/drafts', planDraftView, { body });
    if (reply.as === 'ok') go(office.planDraft(reply.value.id));
    else setTrouble(troubleOf(reply, 'A draft is made on line. Try again when the network is back.'));
  };
  return (
    <>
      <TroubleNotice of={trouble} />
      <div className="buttons">
        <Button look="go" onClick={() => void begin()}>
          {series === undefined ? 'Write a plan' : 'Begin a draft from the version in force'}
        </Button>
        {series === undefined ? <LinkButton to={office.starters}>Take a starter</LinkButton> : null}
      </div>
    </>
  );
}
