import type { Refused } from '@bakehouse/kernel';
import type { Draft, Recorded } from '@bakehouse/offline';
import { useState, type ReactNode } from 'react';
import { useRecord } from './tablet-context';
import { Notice, Refusal } from './ui';

export interface Act {
  /** Records these in order, up to the first that is refused; true where all were taken. */
  readonly act: (...drafts: readonly Draft[]) => Promise<Recorded | undefined>;
  readonly busy: boolean;
  /** What stood against it, to be shown beside the form. */
  readonly trouble: ReactNode;
}

/** Recording from a form: one press at a time, and what is refused or cannot be kept is said with the form still filled in. */
export function useAct(): Act {
  const record = useRecord();
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<Refused>();
  const [broken, setBroken] = useState(false);
  const act = async (...drafts: readonly Draft[]): Promise<Recorded | undefined> => {
    if (busy) return undefined;
    setBusy(true);
    setRefused(undefined);
    setBroken(false);
    let last: Recorded | undefined;
    try {
      for (const draft of drafts) {
        last = await record(draft);
        if (last.ok) continue;
        setRefused(last);
        return undefined;
      }
      return last;
    } catch {
      setBroken(true);
      return undefined;
    } finally {
      setBusy(false);
    }
  };
  const trouble = broken ? (
    <Notice tone="bad" title="This tablet could not keep it">
      <p>
        Nothing was saved just now; what you typed still stands here. Try again; if it stays so, write it on paper and tell whoever looks
        after the tablet.
      </p>
    </Notice>
  ) : refused ? (
    <Refusal refused={refused} />
  ) : null;
  return { act, busy, trouble };
}
