import { describe, expect, it } from '@jest/globals';
import { httpDoor } from './http-door.js';

const to = { book: 'b1', bookType: 'site', typedBy: 'tam' } as const;
const recorded = {
  as: 'recorded',
  id: 'e1',
  receipt: { book: 'b1', seq: 4, leaf: 'ff', recordedAt: '2026-11-25T04:00:00.000Z' },
  outcome: { x: 1 },
};

const origin = 'http://bakehouse.test';

function door(answer: () => Response | Promise<Response>, token: string | null | undefined = 't') {
  const [asked, failed]: [Request[], string[]] = [[], []];
  return {
    asked,
    failed,
    door: httpDoor(
      {
        tokenFor: () => Promise.resolve(token),
        tokenFailed: (p) => {
          failed.push(p);
        },
      },
      {
        origin,
        fetch: (request) => {
          asked.push(request);
          return Promise.resolve().then(answer);
        },
      },
    ),
  };
}
const shown = async (request: Request | undefined) =>
  request && {
    to: `${request.method} ${request.url.slice(origin.length)}`,
    body: await request.text(),
    as: request.headers.get('authorization'),
    form: request.headers.get('content-type'),
  };
const unasked = { fetch: () => Promise.reject(new Error('not asked')) };
const json =
  (status: number, body: unknown, headers: Record<string, string> = {}) =>
  () =>
    new Response(JSON.stringify(body), { status, headers });

describe('the door over HTTP', () => {
  it('posts to the book’s address in the name of the person who typed it', async () => {
    const { door: d, asked } = door(json(200, [recorded]));
    expect(await d.send(to, [{ id: 'e1' }])).toMatchObject({
      as: 'answered',
      answers: [{ as: 'recorded', id: 'e1', receipt: { seq: 4 } }],
    });
    expect(await shown(asked[0])).toEqual({
      to: 'POST /api/v1/sites/b1/entries',
      body: '[{"id":"e1"}]',
      as: 'Bearer t',
      form: 'application/json',
    });
    await d.send({ ...to, bookType: 'organisation' }, []);
    expect(await shown(asked[1])).toMatchObject({ to: 'POST /api/v1/organisation/entries', body: '[]' });
  });

  it('goes by the cookie where there is no token, and asks nobody where nobody is signed on', async () => {
    const cookie = door(json(200, [recorded]), null);
    await cookie.door.send(to, [{}]);
    expect(await shown(cookie.asked[0])).toMatchObject({ as: null, body: '[{}]' });
    const nobody = httpDoor({ tokenFor: () => Promise.resolve(undefined), tokenFailed: () => undefined }, unasked);
    expect(await nobody.send(to, [{}])).toEqual({ as: 'not-signed-on' });
  });

  it('waits where it cannot be found out who asks', async () => {
    const unknown = httpDoor({ tokenFor: () => Promise.reject(new Error('not reached')), tokenFailed: () => undefined }, unasked);
    expect(await unknown.send(to, [{}])).toEqual({ as: 'unreachable' });
  });

  it.each([
    ['no network', () => Promise.reject(new TypeError('failed'))],
    ['a page instead of an answer', () => new Response('<html>Welcome to our network</html>', { status: 200 })],
    ['an answer of another form', json(200, { hello: 1 })],
    ['fewer answers than entries', json(200, [])],
    ['a fault', json(500, { type: 'x/internal', title: 't', detail: 'd' })],
    ['a proxy’s own page', () => new Response('Bad gateway', { status: 502 })],
    ['a refusal that is no problem document', json(403, {})],
  ])('takes %s for not reached', async (_what, answer) => {
    expect(await door(answer).door.send(to, [{}])).toEqual({ as: 'unreachable' });
  });

  it('waits as long as it is told', async () => {
    expect(
      await door(json(429, { type: 'x/too-many-requests', title: 't', detail: 'd' }, { 'retry-after': '12' })).door.send(to, [{}]),
    ).toEqual({
      as: 'unreachable',
      afterMs: 12_000,
    });
  });

  it('says that a session ended, and forgets its token', async () => {
    const { door: d, failed } = door(json(401, { type: 'x/session-ended', title: 't', detail: 'd' }));
    expect(await d.send(to, [{}])).toEqual({ as: 'not-signed-on' });
    expect(failed).toEqual(['tam']);
  });

  it('hands on a problem with the request as a whole', async () => {
    expect(
      await door(
        json(413, { type: 'https://x.example/problems/too-large', title: 'Too much at once', detail: 'Smaller parts.' }),
      ).door.send(to, [{}]),
    ).toMatchObject({ as: 'refused', problem: { problem: 'too-large', title: 'Too much at once', detail: 'Smaller parts.' } });
  });

  it('takes problems that it does not know yet', async () => {
    const answer = { as: 'refused', id: 'e1', problem: 'from-the-future', title: 't', detail: 'd' };
    expect(await door(json(200, [answer])).door.send(to, [{}])).toMatchObject({ as: 'answered', answers: [answer] });
  });
});
