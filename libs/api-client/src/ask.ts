import createFetchClient, { type FetchResponse, type MaybeOptionalInit } from 'openapi-fetch';
import type { HttpMethod, MediaType, PathsWithMethod, RequiredKeysOf } from 'openapi-typescript-helpers';
import type * as z from 'zod';
import type { As, Token } from './as.js';
import type { paths } from './generated/types.js';
import { replyOf, type Reply } from './reply.js';

const root = '/api/v1';
/** The addresses of the API as they are written here: without what all of them begin with. */
type Paths = { [P in keyof paths as P extends `${typeof root}${infer Rest}` ? Rest : never]: paths[P] };

export type PathOf<M extends HttpMethod> = PathsWithMethod<Paths, M>;
/** What goes with an address: its parameters and its body. */
export type InitOf<M extends HttpMethod, P extends PathOf<M>> = MaybeOptionalInit<Paths[P], M>;
/** Left out where nothing is needed. The client's own type for this, which it does not export. */
export type Init<I> = RequiredKeysOf<I> extends never ? [(I & { [key: string]: unknown })?] : [I & { [key: string]: unknown }];
type AnswerOf<M extends HttpMethod, P extends PathOf<M>, I> = NonNullable<
  FetchResponse<Extract<Paths[P][M], Record<string | number, unknown>>, I, MediaType>['data']
>;
/** A schema that reads whatever an address answers; with any other the call does not compile. */
export type Reads<S extends z.ZodType, M extends HttpMethod, P extends PathOf<M>, I> = AnswerOf<M, P, I> extends z.input<S> ? S : never;

export interface Asking {
  /** The person to act for; without one, the person of the browser's cookie. */
  readonly as?: As;
  readonly timeoutMs?: number;
  readonly fetch?: (request: Request) => Promise<Response>;
  /** Where the service is, for what is not a page of it. */
  readonly origin?: string;
}

type Sent = Omit<Asking, 'as'> & { readonly token: Token; readonly held: string | null };

const clientFor = ({ timeoutMs = 10_000, fetch, origin = '', token, held }: Sent) =>
  createFetchClient<Paths>({
    baseUrl: `${origin}${root}`,
    signal: AbortSignal.timeout(timeoutMs),
    ...(fetch ? { fetch } : {}),
    headers: { ...(token ? { authorization: `Bearer ${token}` } : {}), ...(held === null ? {} : { 'if-none-match': held }) },
  });

/** Sends one request and reads what comes back; what cannot be sent or read was not reached. */
const sending =
  ({ as = (once) => once(null), ...over }: Asking) =>
  <M extends HttpMethod, P extends PathOf<M>, I extends InitOf<M, P>, T>(
    held: string | null,
    method: M,
    path: P,
    init: Init<I>,
    read: (response: Response, body: unknown) => Reply<T>,
  ): Promise<Reply<T>> =>
    as(async (token) => {
      try {
        const { data, error, response } = await clientFor({ ...over, token, held }).request<M, P, I>(method, path, ...init);
        return read(response, (response.ok ? data : error) ?? null);
      } catch (error) {
        return isTimeout(error) ? { as: 'unreachable', slow: true } : { as: 'unreachable' };
      }
    });

const isTimeout = (error: unknown): boolean => error instanceof DOMException && error.name === 'TimeoutError';

/**
 * A way to ask the service. Method, address, parameters and body are checked against its description by the compiler; what it answers, by the
 * schema when it comes.
 */
export function asking(how: Asking = {}) {
  const send = sending(how);
  return <M extends HttpMethod, P extends PathOf<M>, I extends InitOf<M, P>, S extends z.ZodType>(
    method: M,
    path: P,
    schema: S & Reads<S, M, P, I>,
    ...init: Init<I>
  ): Promise<Reply<z.output<S>>> =>
    send<M, P, I, z.output<S>>(null, method, path, init, (response, body) => replyOf<S>(response, body, schema));
}
export type Ask = ReturnType<typeof asking>;

/** What was asked for with a tag in hand: what it is now, with its own tag, or that what was held still holds, as of when. */
export type IfChanged<T> =
  { readonly changed: true; readonly value: T; readonly tag: string | null } | { readonly changed: false; readonly asOf: string };

/** A way to ask again for what is held already, by the tag that it came with. */
export function askingIfChanged(how: Asking = {}) {
  const send = sending(how);
  return <P extends PathOf<'get'>, I extends InitOf<'get', P>, S extends z.ZodType>(
    held: string | null,
    path: P,
    schema: S & Reads<S, 'get', P, I>,
    ...init: Init<I>
  ): Promise<Reply<IfChanged<z.output<S>>>> =>
    send<'get', P, I, IfChanged<z.output<S>>>(held, 'get', path, init, (response, body) => {
      const asOf = response.headers.get('x-as-of');
      if (held !== null && response.status === 304 && asOf !== null) return { as: 'ok', value: { changed: false, asOf } };
      const reply = replyOf<S>(response, body, schema);
      return reply.as === 'ok' ? { as: 'ok', value: { changed: true, value: reply.value, tag: response.headers.get('etag') } } : reply;
    });
}

/** Sends a request as the person of the browser's cookie. */
export const ask: Ask = asking();
