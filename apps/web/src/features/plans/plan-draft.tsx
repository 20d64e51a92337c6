import { planDraftView, type PlanDraftView } from '@bakehouse/contracts';
import { loosenedText } from '@bakehouse/views';
import { useLocation } from 'wouter';
import { ConflictNotice } from '../../shared/drafts/conflict';
import { DraftHead, SaveDraft } from '../../shared/drafts/draft-head';
import { FinishDraft, type AskedBefore } from '../../shared/drafts/finish-draft';
import '../../shared/drafts/drafts.css';
import { Words } from '../../shared/drafts/fields';
import { changedAt, without } from '../../shared/drafts/lists';
import { useDraft } from '../../shared/drafts/use-draft';
import { office } from '../../shared/office-paths';
import { WarningList } from '../../shared/plan-warnings';
import { useMaterialOrFormula } from '../../shared/plan-names';
import { Button, Caution, Empty, Screen, Section, StateWord } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { BeforeThePin, LooseningReasons } from './loosening';
import { PastLifeEditor, StaysOnHold } from './past-life-editor';
import { PointEditor } from './point-editor';
import { newPoint, planDrafts, type PlanWriting } from './text';
import { usePlanWords } from './words';

/** One draft of a plan, to write on and to put in force. */
export function PlanDraft({ id }: { readonly id: string }) {
  const loaded = useLoaded('/plans/drafts/{draft}', planDraftView, { params: { path: { draft: id } } });
  if (loaded.reply?.as === 'ok') return <Editor first={loaded.reply.value} />;
  return (
    <Screen title="Draft" back={{ to: office.plan, text: 'Plan' }}>
      <Shown of={loaded}>{() => null}</Shown>
    </Screen>
  );
}

function Editor({ first }: { readonly first: PlanDraftView }) {
  const writing = useDraft(planDrafts, first);
  const { view, text, changeContent, archived } = writing;
  const nameOf = useMaterialOrFormula();

  const [, go] = useLocation();
  const leave = async (): Promise<void> => {
    if (await archived()) go(office.plan, { replace: true });
  };
  return (
    <Screen
      title={text.content.name === '' ? 'A plan without a name yet' : text.content.name}
      back={{ to: office.plan, text: 'Plan' }}
      actions={<SaveDraft writing={writing} />}
    >
      <DraftHead writing={writing}>Nothing here is in force or approved before it is signed.</DraftHead>
      <ConflictNotice writing={writing} words={usePlanWords()} />
      <Section title="The plan">
        <div className="long-fields">
          <Words label="Name" value={text.content.name} onChange={(name) => changeContent({ name })} />
          <Words label="What it covers" value={text.content.scope} onChange={(scope) => changeContent({ scope })} most={1000} />
          <Words label="Who made it" value={text.content.team} onChange={(team) => changeContent({ team })} most={500} />
        </div>
      </Section>
      <PastLifeEditor writing={writing} />
      <Points writing={writing} />
      <LooseningReasons writing={writing} />
      <About view={view} />
      <p>What was begun before keeps the version that it began with.</p>
      <StaysOnHold writing={writing} />
      <FinishDraft
        key={view.revision}
        writing={writing}
        path={planDrafts.path}
        text={`In force from now on: version ${view.nextNumber}`}
        onDone={() => void leave()}
        {...askedBefore(view, nameOf)}
      />
      <Caution />
    </Screen>
  );
}

/** What is asked once more before the PIN where the draft loosens something, or asks to be looked at. */
function askedBefore(view: PlanDraftView, nameOf: (id: string) => string | undefined): AskedBefore {
  const loosened = view.loosened ?? [];
  if (loosened.length + view.warnings.length === 0) return {};
  const says = loosened.map((one) => loosenedText(one, nameOf)).join('; ');
  return {
    question: loosened.length === 0 ? 'Has a competent person looked at this?' : 'Shall the plan let this through?',
    under: <BeforeThePin view={view} />,
    back: 'Back to the draft',
    ...(says !== '' && { says: `This lets through what the plan in force does not: ${says}.` }),
  };
}

function Points({ writing: { text, changeContent } }: { readonly writing: PlanWriting }) {
  const { points } = text.content;
  return (
    <Section title="Control points">
      {points.length === 0 ? <Empty>No control point yet. A plan has at least one.</Empty> : null}
      {points.map((p, i) => (
        <PointEditor
          key={p.key}
          point={p}
          onChange={(to) => changeContent({ points: changedAt(points, i, to) })}
          onCopy={() => changeContent({ points: [...points, newPoint(points, p)] })}
          onTakeOut={() => changeContent({ points: without(points, i) })}
        />
      ))}
      <div className="buttons">
        <Button onClick={() => changeContent({ points: [...points, newPoint(points)] })}>One more point</Button>
      </div>
    </Section>
  );
}

/** As it was last saved: what still stands against it, and what it changes of the version in force. */
function About({ view: { problems, warnings, against, others } }: { readonly view: PlanDraftView }) {
  const words = usePlanWords();
  return (
    <Section title="As it was last saved">
      <p>
        {problems.length === 0 ? (
          <StateWord shape="disc" tone="good">
            It is whole. Whether its limits are safe is for a competent person to say
          </StateWord>
        ) : (
          <StateWord shape="ring" tone="calm">
            Still to do before it can be signed
          </StateWord>
        )}
      </p>
      <ul className="to-do">
        {problems.map((p, i) => (
          <li key={i}>
            <strong>{words.place(p.field.split('.')) || 'the whole'}</strong>: {p.title}
            {p.acceptable === null ? '' : `; acceptable: ${p.acceptable}`}
          </li>
        ))}
      </ul>
      <WarningList of={warnings} />
      {against === null ? (
        <p>No version of it is in force yet.</p>
      ) : (
        <>
          <h3>Against version {against.number}</h3>
          <ul>
            {against.differences.length === 0 ? <li>nothing is changed</li> : null}
            {against.differences.map((d, i) => (
              <li key={i}>{words.difference({ before: undefined, after: undefined, ...d })}</li>
            ))}
          </ul>
        </>
      )}
      {others.length === 0 ? null : (
        <p>Also being worked on by {others.map((o) => o.by.name ?? 'somebody').join(', ')}, in a draft of their own.</p>
      )}
    </Section>
  );
}
