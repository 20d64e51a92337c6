import type { DraftConflict, FormulaDraftView } from '@bakehouse/contracts';
import { differences, merge } from '@bakehouse/domain';
import { useState } from 'react';
import { useWho } from '../../shared/who';
import { sendDraft } from './send-draft';
import { readText, type Text } from './text';

export type Conflict = DraftConflict['conflict'];
interface Trouble {
  readonly title: string;
  readonly detail: string;
}

export interface Writing {
  readonly view: FormulaDraftView;
  readonly text: Text;
  readonly dirty: boolean;
  readonly busy: boolean;
  readonly trouble: Trouble | undefined;
  /** What somebody else saved meanwhile; `together` says that both are put together and wait to be saved. */
  readonly conflict: Conflict | undefined;
  readonly together: boolean;
  readonly change: (to: Partial<Text>) => void;
  readonly changeContent: (to: Partial<Text['content']>) => void;
  readonly save: () => Promise<void>;
  readonly putTogether: (whereBoth: 'mine' | 'theirs') => void;
  readonly putAway: () => Promise<boolean>;
}

const unreachable: Trouble = {
  title: 'The bakehouse’s computer cannot be reached',
  detail: 'What you typed still stands here. Save it when the network is back.',
};

/** One draft in somebody's hands. Whatever happens while it is saved, what was typed stays on the page. */
export function useDraft(first: FormulaDraftView): Writing {
  const { run } = useWho();
  const [view, setView] = useState(first);
  const [revision, setRevision] = useState(first.revision);
  const [text, setText] = useState(() => readText(first.content));
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Trouble>();
  const [conflict, setConflict] = useState<Conflict>();
  const [together, setTogether] = useState(false);
  const dirty = differences(readText(view.content), text).length > 0 || together;

  const send = async (method: 'PUT' | 'DELETE', from: number): Promise<FormulaDraftView | null | undefined> => {
    setBusy(true);
    setTrouble(undefined);
    const reply = await run((token) => sendDraft(view.id, method, from, method === 'PUT' ? text : undefined, token));
    setBusy(false);
    if (reply.as !== 'ok') {
      setTrouble(reply.as === 'problem' ? reply.problem : unreachable);
      return undefined;
    }
    if (reply.value.as === 'saved') return reply.value.view;
    setConflict(reply.value.conflict);
    setTogether(false);
    return undefined;
  };
  const save = async (): Promise<void> => {
    const saved = await send('PUT', revision);
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
    setText(readText(merged.value));
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
    putAway: async () => (await send('DELETE', revision)) === null,
  };
}
