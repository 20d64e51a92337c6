import { describe, expect, it } from '@jest/globals';
import * as z from 'zod';
import { inNameOf, onlyInNameOf, type Token } from './as.js';
import { asking, askingIfChanged, type InitOf, type PathOf, type Reads } from './ask.js';

const origin = 'http://bakehouse.test';
const me = z.object({ person: z.object({ id: z.string(), name: z.string().nullable() }) });
const tam = { person: { id: 'tam', name: 'Tam' } };
const json = (status: number, body: unknown, headers: Record<string, string> = {}) =>
  new Response(JSON.stringify(body), { status, headers });
const problem = (name: string) => ({ type: `https://x.example/problems/${name}`, title: 'Title', detail: 'Do this.' });

/** Asks through a network that gives these answers, and notes what it was asked. */
function through(...answers: readonly Response[]) {
  const asked: Request[] = [];
  const left = [...answers];
  const fetch = (request: Request): Promise<Response> => {
    asked.push(request);
    const next = left.shift();
    return next ? Promise.resolve(next) : Promise.reject(new TypeError('failed'));
  };
  return { asked, over: { origin, fetch } };
}

describe('asking the service', () => {
  it('fills parameters in, sends a body as JSON, and reads the answer with the schema', async () => {
    const { asked, over } = through(json(200, tam), json(200, { signature: 's', meaning: 'm' }), new Response(null, { status: 204 }));
    const ask = asking(over);
    expect(await ask('get', '/me', me)).toEqual({ as: 'ok', value: tam });
    expect(await ask('post', '/signatures', z.object({ signature: z.string() }), { body: { pin: '1234', entry: { a: 1 } } })).toEqual({
      as: 'ok',
      value: { signature: 's' },
    });
    expect(await ask('post', '/devices/{device}/revocation', z.null(), { params: { path: { device: 'a/b' } }, body: {} })).toEqual({
      as: 'ok',
      value: null,
    });
    expect(asked.map((r) => `${r.method} ${r.url.slice(origin.length)}`)).toEqual([
      'GET /api/v1/me',
      'POST /api/v1/signatures',
      'POST /api/v1/devices/a%2Fb/revocation',
    ]);
    expect(await asked[1]?.text()).toBe('{"pin":"1234","entry":{"a":1}}');
  });

  it('asks in words as they were typed', async () => {
    const { asked, over } = through(json(200, []));
    await asking(over)('get', '/lots', z.array(z.unknown()), { params: { query: { words: 'rye & spelt, 50%' } } });
    expect(new URL(asked[0]?.url ?? '').searchParams.get('words')).toBe('rye & spelt, 50%');
  });

  it.each([
    ['no network', undefined, undefined],
    ['a page instead of an answer', new Response('<html>Welcome to our network</html>', { status: 200 }), undefined],
    ['an answer of another form', json(200, { hello: 1 }), undefined],
    ['a proxy’s own page', new Response('Request entity too large', { status: 413 }), 413],
    ['a refusal that is no problem document', json(403, {}), 403],
  ])('takes %s for not reached', async (_what, answer, status) => {
    const { over } = through(...(answer ? [answer] : []));
    expect(await asking(over)('get', '/me', me)).toEqual({ as: 'unreachable', ...(status === undefined ? {} : { status }) });
  });

  it('gives up after a time, and says that it was slow and not away', async () => {
    const never = (request: Request): Promise<Response> =>
      new Promise((_, fail) => request.signal.addEventListener('abort', () => fail(request.signal.reason)));
    expect(await asking({ origin, fetch: never, timeoutMs: 1 })('get', '/me', me)).toEqual({ as: 'unreachable', slow: true });
  });

  it('hands on a problem: its name, its words, how long to wait, and all that it says beside', async () => {
    const document = { ...problem('draft-changed'), field: 'name', conflict: { revision: 3 } };
    const { over } = through(json(412, document, { 'retry-after': '12' }));
    expect(await asking(over)('get', '/me', me)).toEqual({
      as: 'problem',
      status: 412,
      problem: { problem: 'draft-changed', title: 'Title', detail: 'Do this.', field: 'name' },
      document,
      afterMs: 12_000,
    });
  });

  it('asks again with the tag of what it holds, and takes 304 for an answer only then', async () => {
    const headers = { etag: 'W/"1"', 'x-as-of': '2026-11-25T03:40:20.000Z' };
    const nothing = () => new Response(null, { status: 304, headers });
    const { asked, over } = through(json(200, tam, headers), nothing(), nothing(), new Response(null, { status: 304 }));
    const again = askingIfChanged(over);
    expect(await again(null, '/me', me)).toEqual({ as: 'ok', value: { changed: true, value: tam, tag: 'W/"1"' } });
    expect(await again('W/"1"', '/me', me)).toEqual({ as: 'ok', value: { changed: false, asOf: headers['x-as-of'] } });
    expect(await again(null, '/me', me)).toMatchObject({ as: 'unreachable' });
    expect(await again('W/"1"', '/me', me)).toMatchObject({ as: 'unreachable' });
    expect(asked.map((r) => r.headers.get('if-none-match'))).toEqual([null, 'W/"1"', null, 'W/"1"']);
  });

  it('compiles only where the description has it so', () => {
    const asked: [Is<'/me', PathOf<'get'>>, Is<'/mee', PathOf<'get'>>, Is<'/me', PathOf<'post'>>] = ['yes', 'no', 'no'];
    const read: [Reading<'/me', typeof me>, Reading<'/sign-on/people', typeof me>] = ['yes', 'no'];
    const sent: [Is<{ pin: string; entry: unknown }, Body>, Is<{ pin: number; entry: unknown }, Body>] = ['yes', 'no'];
    const needed: [Is<undefined, InitOf<'get', '/me'>>, Is<undefined, InitOf<'get', '/recalls/{recall}'>>] = ['yes', 'no'];
    expect([asked, read, sent, needed].map((these) => these[0])).toEqual(['yes', 'yes', 'yes', 'yes']); // the compiler says the rest
  });
});

type Is<A, B> = [A] extends [B] ? 'yes' : 'no';
type Reading<P extends PathOf<'get'>, S extends z.ZodType> = [Reads<S, 'get', P, undefined>] extends [never] ? 'no' : 'yes';
type Body = InitOf<'post', '/signatures'>['body'];

describe('in whose name', () => {
  const tokens = (token: () => Promise<Token>) => {
    const failed: string[] = [];
    return { failed, tokenFor: token, tokenFailed: (person: string) => void failed.push(person) };
  };

  it('goes by a token where there is one, and by the cookie where there is none', async () => {
    const { asked, over } = through(json(200, tam), json(200, tam), json(200, tam));
    for (const token of ['t', null, undefined])
      await asking({
        ...over,
        as: inNameOf(
          tokens(() => Promise.resolve(token)),
          'tam',
        ),
      })('get', '/me', me);
    expect(asked.map((r) => r.headers.get('authorization'))).toEqual(['Bearer t', null, null]);
  });

  it('forgets a token that is not good any more, and only then', async () => {
    const { over } = through(json(401, problem('session-ended')), json(403, problem('pin-needed')));
    const held = tokens(() => Promise.resolve('t'));
    const ask = asking({ ...over, as: inNameOf(held, 'tam') });
    expect(await ask('get', '/me', me)).toMatchObject({ as: 'problem', status: 401, problem: { problem: 'session-ended' } });
    expect(held.failed).toEqual(['tam']);
    expect(await ask('get', '/me', me)).toMatchObject({ as: 'problem', status: 403 });
    expect(held.failed).toEqual(['tam']);
  });

  it('is not reached where it cannot be found out', async () => {
    const { asked, over } = through(json(200, tam));
    const held = tokens(() => Promise.reject(new Error('not reached')));
    expect(await asking({ ...over, as: inNameOf(held, 'tam') })('get', '/me', me)).toEqual({ as: 'unreachable' });
    expect(asked).toEqual([]);
  });

  it('is nobody else’s, where that is asked for: not the cookie’s either', async () => {
    const { asked, over } = through(json(200, tam), json(200, tam));
    const nobody = asking({
      ...over,
      as: onlyInNameOf(
        tokens(() => Promise.resolve(undefined)),
        'tam',
      ),
    });
    expect(await nobody('get', '/me', me)).toMatchObject({ as: 'problem', status: 401, problem: { problem: 'not-signed-on' } });
    expect(asked).toEqual([]);
    const cookie = asking({
      ...over,
      as: onlyInNameOf(
        tokens(() => Promise.resolve(null)),
        'tam',
      ),
    });
    expect(await cookie('get', '/me', me)).toEqual({ as: 'ok', value: tam });
  });
});
