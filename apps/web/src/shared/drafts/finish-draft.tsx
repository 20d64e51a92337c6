import { toSign } from '@bakehouse/contracts';
import { refuse } from '@bakehouse/kernel';
import { payloadOf, type NewEntry } from '@bakehouse/records';
import type { ComponentProps, ReactNode } from 'react';
import { SignButton } from '../sign-button';
import { Button, Refusal } from '../../ui';
import { Shown, useLoaded } from '../use-loaded';
import type { DraftsPath } from './send-draft';
import type { Writing } from './use-draft';

/** What is asked once more before the PIN, and what is said beside it. */
export type AskedBefore = Pick<ComponentProps<typeof SignButton>, 'question' | 'under' | 'back' | 'says'>;

interface Props extends AskedBefore {
  readonly writing: Pick<Writing, 'dirty' | 'busy' | 'conflict'> & { readonly view: { readonly id: string; readonly ready: boolean } };
  /** Where drafts of this type are. */
  readonly path: DraftsPath;
  readonly text: string;
  readonly onDone: () => void;
  /** How it is signed, where something is asked with it. */
  readonly sign?: (entry: NewEntry) => ReactNode;
}

/** Signed from now on, or archived. Only what is saved is signed. */
export function FinishDraft({ writing: { view, dirty, conflict, busy }, path, text, onDone, sign, ...before }: Props) {
  const ready = view.ready && !dirty && !conflict;
  const signing = useLoaded(ready ? `${path}/{draft}/to-sign` : null, toSign, { params: { path: { draft: view.id } } });
  return (
    <>
      {ready ? (
        <Shown of={signing}>
          {({ payload }) => {
            const entry = entryToSign(path, payload);
            if (!entry) return <Refusal refused={refuse('malformed')} />;
            return sign?.(entry) ?? <SignButton text={text} draft={entry} onDone={onDone} {...before} />;
          }}
        </Shown>
      ) : (
        <p className="hint">{dirty ? 'Save it before it is signed.' : 'What is still to do stands above.'}</p>
      )}
      <div className="buttons">
        <Button look="quiet" disabled={busy || dirty} onClick={onDone}>
          Archive this draft
        </Button>
      </div>
    </>
  );
}

/** What is signed for a draft of each type, as its kind reads it; undefined where the service gave something else. */
function entryToSign(path: DraftsPath, payload: unknown): NewEntry | undefined {
  if (path === '/plans/drafts') {
    const plan = payloadOf('plan-approved', payload);
    return plan && { kind: 'plan-approved', payload: plan };
  }
  const formula = payloadOf('formula-approved', payload);
  return formula && { kind: 'formula-approved', payload: formula };
}
