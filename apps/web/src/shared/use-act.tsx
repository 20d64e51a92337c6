import type { Refused } from '@bakehouse/kernel';
import type { Saved } from '@bakehouse/offline';
import type { KindName, NewEntry, NewEntryOf } from '@bakehouse/records';
import { useState, type ReactNode } from 'react';
import { useRecord, useTable } from './tablet-context';
import { Button, Notice, Refusal } from '../ui';

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
  const { tablet, person } = useTable();
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<{ readonly why: Refused; readonly evenSo: () => Promise<string> }>();
  const [kept, setKept] = useState(false);
  const [broken, setBroken] = useState(false);
  const save = async <K extends KindName>(entry: NewEntryOf<K>): Promise<Saved<K> | undefined> => {
    const recorded = await record(entry);
    if (recorded.ok) return recorded;
    setRefused({ why: recorded, evenSo: () => tablet.recordEvenSo(entry, person.id) });
    return undefined;
  };
  const act: Act['act'] = async (entry, before = []) => {
    if (busy) return undefined;
    setBusy(true);
    setRefused(undefined);
    setBroken(false);
    setKept(false);
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
  const keep = async (evenSo: () => Promise<string>): Promise<void> => {
    setBusy(true);
    try {
      await evenSo();
      setRefused(undefined);
      setKept(true);
    } catch {
      setBroken(true);
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
  ) : kept ? (
    <Notice tone="ask" title="Kept as you typed it">
      <p>The bakehouse’s computer decides by its own records. If it refuses it too, it stands under “to look at” and is not lost.</p>
    </Notice>
  ) : refused ? (
    <>
      <Refusal refused={refused.why} />
      {contradicts(refused.why) ? (
        <div className="buttons">
          <Button look="quiet" disabled={busy} onClick={() => void keep(refused.evenSo)}>
            It is so: keep it
          </Button>
        </div>
      ) : null}
    </>
  ) : null;
  return { act, busy, trouble };
}

/** The device's records speak against it, which may be older than what the person sees. What is not filled in rightly is put right in the form. */
const contradicts = ({ problem }: Refused): boolean => problem !== 'malformed' && problem !== 'required';
