import type { ReactNode } from 'react';
import { useTabletState } from '../tablet-context';
import { dayTime } from '../trace/words';
import { Button } from '../../ui';
import type { Writing } from './use-draft';
import { TroubleNotice } from '../trouble-notice';

type Saving = Pick<Writing, 'dirty' | 'busy' | 'save'>;

export function SaveDraft({ writing: { dirty, busy, save } }: { readonly writing: Saving }) {
  return (
    <Button look="go" disabled={busy || !dirty} onClick={() => void save()}>
      {busy ? 'One moment…' : dirty ? 'Save' : 'Saved'}
    </Button>
  );
}

interface HeadProps {
  readonly writing: Pick<Writing, 'dirty' | 'trouble'> & {
    readonly view: { readonly nextNumber: number; readonly at: string; readonly by: { readonly name: string | null } };
  };
  readonly children?: ReactNode;
}

/** Who saved it last and when, whether something is not saved yet, and what stood against saving it. */
export function DraftHead({ writing: { view, dirty, trouble }, children }: HeadProps) {
  const { site } = useTabletState();
  return (
    <>
      <p className="faint">
        Draft for version {view.nextNumber}, saved by {view.by.name ?? 'somebody'} {dayTime(view.at, site.zone)}.
        {dirty ? ' What you changed since is not saved yet.' : ''} {children}
      </p>
      <TroubleNotice of={trouble} />
    </>
  );
}
