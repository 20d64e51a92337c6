import { toSign } from '@bakehouse/contracts';
import { SignButton } from '../sign-button';
import { Button } from '../ui';
import { Shown, useLoaded } from '../use-loaded';
import type { DraftsPath } from './send-draft';
import type { Writing } from './use-draft';

interface Props {
  readonly writing: Pick<Writing, 'dirty' | 'busy' | 'conflict'> & { readonly view: { readonly id: string; readonly ready: boolean } };
  /** Where drafts of this type are. */
  readonly path: DraftsPath;
  readonly text: string;
  readonly onDone: () => void;
}

/** Signed from now on, or archived. Only what is saved is signed. */
export function FinishDraft({ writing: { view, dirty, conflict, busy }, path, text, onDone }: Props) {
  const ready = view.ready && !dirty && !conflict;
  const signing = useLoaded(ready ? `${path}/{draft}/to-sign` : null, toSign, { params: { path: { draft: view.id } } });
  return (
    <>
      {ready ? (
        <Shown of={signing}>{({ kind, payload }) => <SignButton text={text} draft={{ kind, payload }} onDone={onDone} />}</Shown>
      ) : (
        <p className="hint">{dirty ? 'Save it before it is signed.' : 'What is still to do stands above.'}</p>
      )}
      <div className="buttons">
        <Button look="quiet" disabled={busy || dirty} onClick={onDone}>
          Put this draft archived
        </Button>
      </div>
    </>
  );
}
