import type { DraftConflict } from '@bakehouse/contracts';
import { differences, merge } from '@bakehouse/kernel';
import { useState } from 'react';
import type * as z from 'zod';
import { useWho } from '../who';
import { sendDraft, type DraftsPath } from './send-draft';
import { troubleOf, type Trouble } from '../trouble-of';

export type Conflict = DraftConflict['conflict'];
interface View {
  readonly id: string;
  readonly revision: number;
  readonly content: unknown;
}
interface AnyText {
  readonly content: object;
}
/** One type of draft: where it is, what the service answers, and how its text is read, half made as it may be. */
export interface DraftType<V extends View, T extends AnyText> {
  readonly path: DraftsPath;
  readonly answer: z.ZodType<V>;
  readonly read: (content: unknown) => T;
}

export interface Writing<V extends View = View, T extends AnyText = AnyText> {
  readonly view: V;
  readonly text: T;
  readonly dirty: boolean;
  readonly busy: boolean;
  readonly trouble: Trouble | undefined;
  /** What somebody else saved meanwhile; `together` says that both are put together and wait to be saved. */
  readonly conflict: Conflict | undefined;
  readonly together: boolean;
  readonly change: (to: Partial<T>) => void;
  readonly changeContent: (to: Partial<T['content']>) => void;
  readonly save: () => Promise<void>;
  readonly putTogether: (whereBoth: 'mine' | 'theirs') => void;
  readonly archived: () => Promise<boolean>;
}

/** One draft in somebody's hands. Whatever happens while it is saved, what was typed stays on the page. */
export function useDraft<V extends View, T extends AnyText>({ path, answer, read }: DraftType<V, T>, first: V): Writing<V, T> {
  const { ask } = useWho();
  const [view, setView] = useState(first);
  const [revision, setRevision] = useState(first.revision);
  const [text, setText] = useState(() => read(first.content));
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Trouble>();
  const [conflict, setConflict] = useState<Conflict>();
  const [together, setTogether] = useState(false);
  const dirty = differences(read(view.content), text).length > 0 || together;

  const send = async (what: T | undefined, from: number): Promise<V | null | undefined> => {
    setBusy(true);
    setTrouble(undefined);
    const reply = await sendDraft(ask, path, answer, { id: view.id, revision: from }, what);
    setBusy(false);
    if (reply.as !== 'ok') {
      setTrouble(troubleOf(reply, 'What you typed still stands here. Save it when the network is back.'));
      return undefined;
    }
    if (reply.value.as === 'saved') return reply.value.view;
    setConflict(reply.value.conflict);
    setTogether(false);
    return undefined;
  };
  const save = async (): Promise<void> => {
    const saved = await send(text, revision);
    if (!saved) return;
    setView(saved);
    setRevision(saved.revision);
    setConflict(undefined);
    setTogether(false);
  };
  const putTogether = (whereBoth: 'mine' | 'theirs'): void => {
    if (!conflict) return;
    const { base, theirs } = conflict;
    const merged = whereBoth === 'mine' ? merge(base ?? {}, text, theirs) : merge(base ?? {}, theirs, text);
    setText(read(merged.value));
    setRevision(conflict.revision);
    setTogether(true);
  };
  return {
    view,
    text,
    dirty,
    busy,
    trouble,
    conflict,
    together,
    save,
    putTogether,
    change: (to) => setText((t) => ({ ...t, ...to })),
    changeContent: (to) => {
      setText((t) => ({ ...t, content: { ...t.content, ...to } }));
    },
    archived: async () => (await send(undefined, revision)) === null,
  };
}
