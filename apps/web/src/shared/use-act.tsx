import type { Refused } from '@bakehouse/kernel';
import type { Saved } from '@bakehouse/offline';
import type { KindName, NewEntry, NewEntryOf } from '@bakehouse/records';
import { useState, type ReactNode } from 'react';
import { useRecord } from './tablet-context';
import { Notice, Refusal } from './ui';

export interface Act {
  /** Records an entry, after those that must be recorded before it; gives what came of it where all of them were taken. */
  readonly act: <K extends KindName>(entry: NewEntryOf<K>, before?: readonly NewEntry[]) => Promise<Saved<K> | undefined>;
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
  const save = async <K extends KindName>(entry: NewEntryOf<K>): Promise<Saved<K> | undefined> => {
    const recorded = await record(entry);
    if (recorded.ok) return recorded;
    setRefused(recorded);
    return undefined;
  };
  const act: Act['act'] = async (entry, before = []) => {
    if (busy) return undefined;
    setBusy(true);
    setRefused(undefined);
    setBroken(false);
    try {
      for (const earlier of before) if (!(await save(earlier))) return undefined;
      return await save(entry);
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
        Nothing was saved just now; what you typed still stands here. Try again; if it stays so, write it on paper and tell the person who
        looks after the tablet.
      </p>
    </Notice>
  ) : refused ? (
    <Refusal refused={refused} />
  ) : null;
  return { act, busy, trouble };
}
