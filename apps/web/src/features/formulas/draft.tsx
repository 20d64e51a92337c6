import { formulaDraftView, toSign, type FormulaDraftView } from '@bakehouse/contracts';
import { useLocation } from 'wouter';
import { office } from '../../shared/office-paths';
import { SignButton } from '../../shared/sign-button';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Notice, Screen } from '../../shared/ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { AboutDraft, PointsShown } from './about-draft';
import { choicesOf } from './choices';
import { ConflictNotice } from '../../shared/drafts/conflict';
import '../../shared/drafts/drafts.css';
import { LinesEditor } from './lines-editor';
import { formulaWords } from './places';
import { ProductsEditor } from './products-editor';
import { SettingsEditor } from './settings-editor';
import { StepsEditor } from './steps-editor';
import { useDraft } from '../../shared/drafts/use-draft';
import { formulaDrafts, type FormulaWriting } from './text';

/** One draft of a formula, to write on. */
export function Draft({ id }: { readonly id: string }) {
  const loaded = useLoaded(`/formulas/drafts/${id}`, formulaDraftView);
  if (loaded.reply?.as === 'ok') return <Editor first={loaded.reply.value} />;
  return (
    <Screen title="Draft" back={{ to: office.drafts, text: 'Drafts' }}>
      <Shown of={loaded}>{() => null}</Shown>
    </Screen>
  );
}

function Editor({ first }: { readonly first: FormulaDraftView }) {
  const writing = useDraft(formulaDrafts, first);
  const { view, text, dirty, busy, trouble, changeContent, save, putAway } = writing;
  const { snapshot, site } = useTabletState();
  const choices = choicesOf(snapshot, useNow(60_000));
  const [, go] = useLocation();
  const leave = async (): Promise<void> => {
    if (await putAway()) go(office.drafts, { replace: true });
  };
  return (
    <Screen
      title={text.name === '' ? 'A formula without a name yet' : text.name}
      back={{ to: office.drafts, text: 'Drafts' }}
      actions={
        <Button look="go" disabled={busy || !dirty} onClick={() => void save()}>
          {busy ? 'One moment…' : dirty ? 'Save' : 'Saved'}
        </Button>
      }
    >
      <p className="faint">
        Draft for version {view.nextNumber}, saved by {view.by.name ?? 'somebody'} {dayTime(view.at, site.zone)}.
        {dirty ? ' What you changed since is not saved yet.' : ''}
      </p>
      {trouble ? (
        <Notice tone="bad" title={trouble.title}>
          <p>{trouble.detail}</p>
        </Notice>
      ) : null}
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
      <PointsShown writing={writing} />
      <AboutDraft view={view} choices={choices} />
      <Finish key={view.revision} writing={writing} onSigned={() => void leave()} onPutAway={() => void leave()} />
    </Screen>
  );
}

/** Baked by from now on, signed; or put away. Only what is saved is signed. */
function Finish({
  writing: { view, dirty, conflict, busy },
  onSigned,
  onPutAway,
}: {
  readonly writing: FormulaWriting;
  readonly onSigned: () => void;
  readonly onPutAway: () => void;
}) {
  const ready = view.ready && !dirty && !conflict;
  const signing = useLoaded(ready ? `/formulas/drafts/${view.id}/to-sign` : null, toSign);
  return (
    <>
      {ready ? (
        <Shown of={signing}>
          {({ kind, payload }) => (
            <SignButton text={`Baked by from now on: version ${view.nextNumber}`} draft={{ kind, payload }} onDone={onSigned} />
          )}
        </Shown>
      ) : (
        <p className="hint">{dirty ? 'Save it before it is signed.' : 'What is still to do stands above.'}</p>
      )}
      <div className="buttons">
        <Button look="quiet" disabled={busy || dirty} onClick={onPutAway}>
          Put this draft away
        </Button>
      </div>
    </>
  );
}
