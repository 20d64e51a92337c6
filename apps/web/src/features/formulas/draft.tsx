import { formulaDraftView, type FormulaDraftView } from '@bakehouse/contracts';
import { useLocation } from 'wouter';
import { office } from '../../shared/office-paths';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Screen } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { AboutDraft, PointsShown } from './about-draft';
import { choicesOf } from './choices';
import { ConflictNotice } from '../../shared/drafts/conflict';
import { DraftHead, SaveDraft } from '../../shared/drafts/draft-head';
import { FinishDraft } from '../../shared/drafts/finish-draft';
import '../../shared/drafts/drafts.css';
import { LinesEditor } from './lines-editor';
import { formulaWords } from './places';
import { ProductsEditor } from './products-editor';
import { ReworkEditor } from './rework-editor';
import { SignFormula } from './sign-formula';
import { SettingsEditor } from './settings-editor';
import { StepsEditor } from './steps-editor';
import { useDraft } from '../../shared/drafts/use-draft';
import { formulaDrafts } from './text';

/** One draft of a formula, to write on. */
export function Draft({ id }: { readonly id: string }) {
  const loaded = useLoaded('/formulas/drafts/{draft}', formulaDraftView, { params: { path: { draft: id } } });
  if (loaded.reply?.as === 'ok') return <Editor first={loaded.reply.value} />;
  return (
    <Screen title="Draft" back={{ to: office.drafts, text: 'Drafts' }}>
      <Shown of={loaded}>{() => null}</Shown>
    </Screen>
  );
}

function Editor({ first }: { readonly first: FormulaDraftView }) {
  const writing = useDraft(formulaDrafts, first);
  const { view, text, changeContent, archived } = writing;
  const { snapshot } = useTabletState();
  const choices = choicesOf(snapshot, useNow(60_000));
  const [, go] = useLocation();
  const leave = async (): Promise<void> => {
    if (await archived()) go(office.drafts, { replace: true });
  };
  return (
    <Screen
      title={text.name === '' ? 'A formula without a name yet' : text.name}
      back={{ to: office.drafts, text: 'Drafts' }}
      actions={<SaveDraft writing={writing} />}
    >
      <DraftHead writing={writing} />
      <ConflictNotice writing={writing} words={formulaWords(choices)} />
      <SettingsEditor writing={writing} choices={choices} />
      <LinesEditor
        lines={text.content.lines}
        formula={view.subject}
        makes={text.content.makes}
        choices={choices}
        onChange={(lines) => changeContent({ lines })}
      />
      <StepsEditor steps={text.content.steps} onChange={(steps) => changeContent({ steps })} />
      <ProductsEditor products={text.content.products} choices={choices} onChange={(products) => changeContent({ products })} />
      <ReworkEditor rework={text.content.rework} choices={choices} onChange={(rework) => changeContent({ rework })} />
      <PointsShown writing={writing} />
      <AboutDraft view={view} choices={choices} />
      <FinishDraft
        key={view.revision}
        writing={writing}
        path={formulaDrafts.path}
        text={`Approve version ${view.nextNumber}`}
        onDone={() => void leave()}
        sign={(entry) => <SignFormula entry={entry} text={`Approve version ${view.nextNumber}`} onDone={() => void leave()} />}
      />
    </Screen>
  );
}
