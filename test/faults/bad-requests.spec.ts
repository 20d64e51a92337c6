import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { everyKind, type Sample } from '../support/every-kind.js';
import type { Caller } from '../support/people.js';
import { expectProblem } from '../support/problems.js';
import { mulberry, shuffled } from '../support/seeded.js';
import { roomReading } from '../support/payloads.js';
import { size } from '../support/size.js';

let t: TestApp;
let b: Bakehouse;
let everybody: Caller;
let samples: () => Sample[];
let entries: string;
beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock('2026-11-25T04:00:00Z') });
  b = await Bakehouse.found(t);
  samples = await everyKind(b);
  everybody = await b.house.signedOn('Ev Rybody', ['baker', 'manager', 'food-safety-lead', 'administrator']);
  entries = `/sites/${b.site}/entries`;
});
afterAll(() => t.close());

const reading = (figure = '21') =>
  b.house.entry({
    kind: 'reading-taken',
    payload: roomReading(b.site, figure),
  });
const sizeOfBook = async (): Promise<number> =>
  connected(t.database.ownerUrl, async (client) =>
    Number((await client.query<{ n: string }>('SELECT count(*) AS n FROM entry WHERE book = $1', [b.site])).rows[0]?.n),
  );

describe('a request that cannot be read as a whole', () => {
  const raw = (body: string | Buffer, type = 'application/json') =>
    request(t.server).post(`/api/v1${entries}`).set('authorization', `Bearer ${everybody.token}`).set('content-type', type).send(body);

  it('is refused as one, and nothing of it is written', async () => {
    const before = await sizeOfBook();
    const good = JSON.stringify(reading());
    const bodies: readonly (readonly [string, string])[] = [
      ['', 'application/json'],
      ['[', 'application/json'],
      [`[${good},`, 'application/json'],
      [`[${good}]]`, 'application/json'],
      [`{"0":${good}}`, 'application/json'],
      ['null', 'application/json'],
      ['"[]"', 'application/json'],
      ['[]', 'application/json'],
      ['1e400', 'application/json'],
      ['\u0000', 'application/json'],
      [`[{"__proto__":{"kind":"x"}},${good}]`, 'application/json'],
      [`[{"constructor":{"prototype":{"x":1}}},${good}]`, 'application/json'],
      [`[${good}]`, 'text/plain'],
      [`[${good}]`, 'application/x-www-form-urlencoded'],
      [`[${good}]`, 'multipart/form-data; boundary=x'],
      [`[${good}]`, 'application/xml'],
      [`[${good}]`, 'nonsense'],
      [`[${Array(201).fill(good).join()}]`, 'application/json'],
      ['['.repeat(1_000_000), 'application/json'],
    ];
    for (const [body, type] of bodies) expectProblem(await raw(body, type), [body.slice(0, 40), type]);
    expectProblem(await raw(Buffer.from([0x5b, 0xff, 0xfe, 0x5d])), 'not UTF-8');
    expectProblem(
      await raw(`[${JSON.stringify({ ...reading(), words: { note: { text: 'x'.repeat(50_000_000), salt: '00'.repeat(16) } } })}]`),
      '50 MB',
    );
    expect(await sizeOfBook()).toBe(before);
  });

  it('is refused when it is deep, and answered entry by entry where it is wide', async () => {
    const deep = `${'['.repeat(200_000)}${']'.repeat(200_000)}`;
    const { body } = await raw(`[${deep},${JSON.stringify(reading())}]`).expect(200);
    expect(body).toMatchObject([{ as: 'refused' }, { as: 'recorded' }]);
    const wide = { ...reading(), payload: Object.fromEntries(Array.from({ length: 50_000 }, (_, i) => [`k${i}`, 1])) };
    const many = b.house.rawEntry({ kind: 'weighed-in', payload: { make: b.newId(), lines: Array(300_000).fill(1) } });
    for (const one of [wide, many])
      expect((await raw(JSON.stringify([one, reading()])).expect(200)).body).toMatchObject([
        { as: 'refused', problem: 'malformed' },
        { as: 'recorded' },
      ]);
  });
});

describe('bad entries among good ones', () => {
  it('are refused alone: 199 recorded beside each of them', async () => {
    const one = reading();
    const lot = samples().find((s) => s.kind === 'lot-counted');
    const bad: readonly (readonly [string, object])[] = [
      ['unknown-kind', { ...one, kind: 'dough-blessed' }],
      ['unknown-version', { ...one, version: 99 }],
      ['malformed', { ...one, version: 0 }],
      ['malformed', { ...one, extra: 1 }],
      ['in-the-future', b.house.rawEntry({ kind: 'deviation-reported', payload: {}, at: '2026-11-25T04:00:00Z', clock: 'wall' })],
      [
        'unacceptable-value',
        b.house.rawEntry({ kind: 'lot-counted', payload: { ...Object(lot?.payload), quantity: { figure: '5', unit: 'degC' } } }),
      ],
      ['unknown-lot', b.house.rawEntry({ kind: 'lot-counted', payload: { ...Object(lot?.payload), lot: b.newId() } })],
      ['wrong-book', b.house.entry({ kind: 'person-joined', payload: {} })],
    ];
    for (const [problem, entry] of bad.filter(([code]) => code !== 'in-the-future')) {
      const good = Array.from({ length: 199 }, (_, i) => reading(String(i)));
      const { body } = await everybody.post(entries, [...good.slice(0, 77), entry, ...good.slice(77)]).expect(200);
      expect(body.filter((r: { as: string }) => r.as === 'recorded')).toHaveLength(199);
      expect(body[77]).toMatchObject({ as: 'refused', problem, title: expect.any(String), detail: expect.stringMatching(/.{15}/) });
    }
    const tomorrow = b.house.rawEntry({
      ...(samples().find((s) => s.kind === 'deviation-reported') ?? { kind: '', payload: {} }),
      at: '2026-11-26T04:00:00Z',
      clock: 'wall',
    });
    expect((await everybody.post(entries, [tomorrow, reading()]).expect(200)).body).toMatchObject([
      { as: 'refused', problem: 'in-the-future' },
      { as: 'recorded' },
    ]);
  });

  it('do not take an id twice for two things, in one request or in two', async () => {
    const [one, other] = [reading('1'), reading('2')];
    expect((await everybody.post(entries, [one, { ...other, id: one.id }, one]).expect(200)).body.map((r: { as: string }) => r.as)).toEqual(
      ['recorded', 'refused', 'already-recorded'],
    );
    expect((await everybody.post(entries, [{ ...other, id: one.id }]).expect(200)).body).toMatchObject([
      { problem: 'id-reused', field: 'id' },
    ]);
  });

  it('have names and words in any script, kept as they are', async () => {
    const names = [
      '🥐 Zoë',
      'עומר',
      'محمد \u202eabc',
      '李',
      'a\u0301\u0323',
      '\u200b\u200dx',
      '<script>alert(1)</script>',
      "Robert'); DROP TABLE entry;--",
    ];
    for (const name of names) {
      const [id = ''] = await b.house.decide({ kind: 'person-joined', payload: {}, words: { name } });
      const { body } = await everybody.get(`/sites/${b.site}/night`).expect(200);
      expect(body.rows.person.find((p: { id: string }) => p.id === id)).toMatchObject({ name });
    }
  });

  it('are kept as they came, but for signature tokens', async () => {
    const token = 'token-that-must-not-stay-anywhere';
    const sample = samples().find((s) => s.kind === 'released-by-exception');
    const unsigned = b.house.rawEntry(sample ?? { kind: '', payload: {} });
    const odd = { ...reading(), payload: { odd: 'ø 🥐' } };
    const { body } = await everybody
      .post(entries, [
        { ...unsigned, send: { signature: token } },
        { ...odd, send: { signature: token, attempt: 3 } },
      ])
      .expect(200);
    expect(body).toMatchObject([
      { as: 'refused', problem: 'signature-not-valid' },
      { as: 'refused', problem: 'malformed' },
    ]);
    await connected(t.database.ownerUrl, async (client) => {
      const { rows } = await client.query<{ problem: string; entry: unknown }>(
        "SELECT problem, body -> 'entry' AS entry FROM set_aside WHERE body -> 'entry' ->> 'id' = ANY($1) ORDER BY problem",
        [[odd.id, unsigned.id]],
      );
      expect(rows).toEqual([
        { problem: 'malformed', entry: JSON.parse(JSON.stringify(odd)) },
        { problem: 'signature-not-valid', entry: JSON.parse(JSON.stringify(unsigned)) },
      ]);
      const found = await client.query(`SELECT 1 FROM set_aside WHERE body::text LIKE '%${token}%'`);
      expect(found.rowCount).toBe(0);
    });
  });
});

describe('every route', () => {
  it('answers junk with what to do, whatever stands in its address, its query or its body', async () => {
    const { body: document } = await request(t.server).get('/api/v1/openapi.json').expect(200);
    const random = mulberry(3);
    const junk = [
      '%00',
      '%F0%9F%A5%90',
      '..%2f..%2fetc',
      "'%20OR%201=1--",
      '-1',
      '1e400',
      'null',
      b.newId(),
      b.newId().toUpperCase(),
      '%E0%A4%A',
      'x'.repeat(3000),
      '{}',
      '%ud800',
      '%ff',
      b.house.organisation,
    ];
    const bodies: readonly unknown[] = [
      {},
      [],
      [null],
      { pin: 1 },
      { pin: '\u0000', person: '\u0000', code: '\u0000\u0000\u0000\u0000', name: '\u0000' },
      { person: b.newId(), pin: '1234' },
      { entry: [[[]]], pin: '9999' },
      { id: b.newId(), suspect: [b.newId()], hazard: 'microbiological', hazardName: 'nul \u0000', practice: true, said: '\ud800' },
    ];
    for (const [address, operations] of Object.entries<Record<string, unknown>>(document.paths)) {
      if (address.endsWith('/sign-off') || address.endsWith('/events')) continue; // it would end the session that asks; that goes on and on
      for (const method of Object.keys(operations).filter((m) => ['get', 'post', 'put', 'patch', 'delete'].includes(m))) {
        for (const bit of shuffled(junk, random).slice(0, address.includes('/calculate/') ? 3 : size(4, junk.length))) {
          const query = `?day=${bit}&words=${bit}&direction=${bit}&limit=${bit}&hazard=${bit}`;
          const named = address.replaceAll(/\{site\}/g, () => (random() < 0.5 ? b.site : bit)).replaceAll(/\{\w+\}/g, bit);
          const path = `${named}${random() < 0.5 ? query : ''}`;
          const sent = request(t.server)[method as 'get'](path).set('authorization', `Bearer ${everybody.token}`); // one of the five
          const response = await (method === 'get' ? sent : sent.send(bodies[Math.floor(random() * bodies.length)] as object));
          if (response.status >= 400) expectProblem(response, `${method} ${path.slice(0, 200)}`);
        }
      }
    }
  });

  it.each([
    ['/lots?words=%00'],
    ['/lots?words=%00%00A77'],
    ['/lots?words=a&limit=99999999999999999999'],
    ['/lots?words='],
    ['/lots?words[]=a&words[]=b'],
    ['/sites/SITE/night?day=0000-01-01'],
    ['/sites/SITE/night?day=9999-12-31'],
    ['/sites/SITE/night?day=2026-02-30'],
    ['/sites/SITE/night?day=1&day=2'],
  ])('answers %s with what to do', async (path) => {
    expectProblem(await everybody.get(path.replace('SITE', b.site)), path);
  });

  it('finds by name whatever could be a pattern or a quotation', async () => {
    for (const words of ['%', '_', '\\', "'", '"; --', 'e\u0301', '🥐'])
      await everybody.get(`/lots?words=${encodeURIComponent(words)}`).expect(200);
  });

  it('answers methods that it does not have, and addresses that are none', async () => {
    for (const method of ['PUT', 'PATCH', 'DELETE', 'get'] as const) {
      const sent = request(t.server)[method.toLowerCase() as 'put'](`/api/v1${entries}`).set('authorization', `Bearer ${everybody.token}`);
      expectProblem(await sent, method);
    }
    for (const path of [
      '//',
      '/../..',
      '/sites',
      '/sites//entries',
      `/sites/${b.site}/entries/1`,
      `/sites/${b.site}/%2e%2e/entries`,
      '/lots/x/trace',
      '/recalls/%20',
      '/%zz',
      `/${'a'.repeat(9000)}`,
    ]) {
      expectProblem(await everybody.get(path), path.slice(0, 80));
    }
  });
});

describe('ids in capital letters', () => {
  it('name the same lot in a trace and in a case', async () => {
    const lot = await b.delivered('flour', '2026-11-25T03:50:00Z');
    const make = await b.begun('white', '2026-11-25T03:51:00Z');
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '100', lot)] }, { at: '2026-11-25T03:52:00Z' });
    const reached = async (id: string): Promise<string[]> =>
      (await everybody.get(`/lots/${id}/trace`).expect(200)).body.lots.map((l: { id: string }) => l.id).sort();
    expect(await reached(lot.toUpperCase())).toEqual([lot, make].sort());
    const asked = { id: b.newId().toUpperCase(), suspect: [lot.toUpperCase()], hazard: 'physical', hazardName: 'glass', practice: true };
    const { body } = await everybody.post('/recalls', asked).expect(200);
    expect([body.id, body.scopeLots, body.trace.lots.length]).toEqual([asked.id.toLowerCase(), 2, 2]);
    expect((await everybody.post('/recalls', { ...asked, id: asked.id.toLowerCase() }).expect(200)).body.id).toBe(body.id);
  });
});
