import type { Init, InitOf, PathOf, Reads, Reply } from '@bakehouse/api-client';
import { useCallback, useEffect, useRef, useState, type ReactNode } from 'react';
import type * as z from 'zod';
import { Button, Notice } from '../ui';
import { useWho } from './who';
import { troubleOf } from './trouble-of';

export interface Loaded<T> {
  readonly reply: Reply<T> | undefined;
  readonly reload: () => Promise<void>;
  readonly put: (value: T) => void;
}

/** What the service answers to this question, asked when the screen opens and whenever the question changes. Null asks nothing. */
export function useLoaded<P extends PathOf<'get'>, I extends InitOf<'get', P>, S extends z.ZodType>(
  path: P | null,
  schema: S & Reads<S, 'get', P, I>,
  ...init: Init<I>
): Loaded<z.output<S>> {
  const { ask, askPatiently } = useWho();
  const [held, setHeld] = useState<{ readonly key: string; readonly reply: Reply<z.output<S>> }>();
  const key = path === null ? null : JSON.stringify([path, init]);
  const wanted = useRef({ key, path, init });
  wanted.current = { key, path, init };
  const put = useCallback(
    (value: z.output<S>): void => {
      if (key !== null) setHeld({ key, reply: { as: 'ok', value } });
    },
    [key],
  );
  const reload = useCallback(async (): Promise<void> => {
    const { path: at, init: more } = wanted.current;
    if (key === null || at === null) return;
    const show = (reply: Reply<z.output<S>>): void => {
      if (wanted.current.key !== key) return; // something else is asked by now
      setHeld((before) => (reply.as === 'unreachable' && before?.key === key && before.reply.as === 'ok' ? before : { key, reply })); // what was there stays there
    };
    const reply = await ask<'get', P, I, S>('get', at, schema, ...more);
    show(reply);
    // The page says that it takes long, shows what it has kept, and goes on waiting.
    if (reply.as === 'unreachable' && reply.slow === true && wanted.current.key === key)
      show(await askPatiently<'get', P, I, S>('get', at, schema, ...more));
  }, [ask, askPatiently, key, schema]);
  useEffect(() => void reload(), [reload]);
  return { reply: held?.key === key ? held?.reply : undefined, reload, put };
}

/** In the place of what is not there yet: nothing in its place would read as “there is none”. */
export const LoadingText = ({ what }: { readonly what: string }) => (
  <p className="loading still-loading" role="status">
    Still loading: {what}.
  </p>
);

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
        <p>
          {said.detail}
          {reply.as === 'unreachable' && reply.slow === true ? ' This page waits another minute for it by itself.' : ''}
        </p>
      </Notice>
      <div className="buttons">
        <Button look="go" onClick={() => void reload()}>
          Try again
        </Button>
      </div>
    </>
  );
}
