import { useCallback, useEffect, useRef, useState, type ReactNode } from 'react';
import type * as z from 'zod';
import type { Reply } from './api';
import { Button, Notice } from './ui';
import { useWho } from './who';
import { troubleOf } from './trouble-of';

export interface Loaded<T> {
  readonly reply: Reply<T> | undefined;
  readonly reload: () => Promise<void>;
  readonly put: (value: T) => void;
}

/** What the service answers to this address, asked for when the screen opens and whenever the address changes. Null asks nothing. */
export function useLoaded<S extends z.ZodType>(path: string | null, schema: S): Loaded<z.output<S>> {
  const { ask } = useWho();
  const [held, setHeld] = useState<{ readonly path: string; readonly reply: Reply<z.output<S>> }>();
  const wanted = useRef(path);
  wanted.current = path;
  const put = useCallback(
    (value: z.output<S>): void => {
      if (path !== null) setHeld({ path, reply: { as: 'ok', value } });
    },
    [path],
  );
  const reload = useCallback(async (): Promise<void> => {
    if (path === null) return;
    const reply = await ask(path, schema);
    if (wanted.current !== path) return; // an answer to what is not asked any more is left unsaid
    setHeld((before) => (reply.as === 'unreachable' && before?.path === path && before.reply.as === 'ok' ? before : { path, reply })); // what was there stays there
  }, [ask, path, schema]);
  useEffect(() => void reload(), [reload]);
  return { reply: held?.path === path ? held?.reply : undefined, reload, put };
}

/** Shows what was loaded, or why it was not and what to do. */
export function Shown<T>({ of, children }: { readonly of: Loaded<T>; readonly children: (value: T) => ReactNode }) {
  const { reply, reload } = of;
  if (!reply)
    return (
      <p className="loading" role="status">
        One moment…
      </p>
    );
  if (reply.as === 'ok') return <>{children(reply.value)}</>;
  const said = troubleOf(reply, 'This page needs the network. Try again when it is back.');
  return (
    <>
      <Notice tone={reply.as === 'problem' ? 'bad' : 'ask'} title={said.title}>
        <p>{said.detail}</p>
      </Notice>
      <div className="buttons">
        <Button look="go" onClick={() => void reload()}>
          Try again
        </Button>
      </div>
    </>
  );
}
