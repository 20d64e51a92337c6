import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import type request from 'supertest';
import { maxWaiting } from '../../apps/api/src/platform/ledger/lanes.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, type Caller } from '../support/people.js';
import { roomReading } from '../support/payloads.js';

let t: TestApp;
let house: House;
let baker: Caller;
beforeAll(async () => {
  t = await startTestApp();
  house = await House.found(t);
  baker = await house.signedOn('Bo Baker', ['baker']);
});
afterAll(() => t.close());

const reading = (figure = '21.5') =>
  house.entry({
    kind: 'reading-taken',
    payload: roomReading(house.site, figure),
  });
const atSite = (entries: unknown) => baker.post(`/sites/${house.site}/entries`, entries as object);

describe('the door over HTTP', () => {
  it('answers one result an entry, with the sentence that says what to do', async () => {
    const { body } = await atSite([reading(), { kind: 'nothing' }]).expect(200);
    expect(body).toMatchObject([
      { as: 'recorded', receipt: { seq: 0 } },
      { as: 'refused', problem: 'unknown-kind', title: expect.any(String), detail: expect.any(String) },
    ]);
  });

  it.each([
    ['an empty array', []],
    ['201 entries', Array.from({ length: 201 }, () => ({}))],
    ['an object', {}],
  ])('refuses %s as a whole', async (_what, body) => {
    const { body: problem } = await atSite(body).expect(400);
    expect(problem).toMatchObject({ type: expect.stringContaining('malformed'), detail: expect.any(String) });
  });

  it('records the good ones of 200 beside one bad one', async () => {
    const entries: unknown[] = Array.from({ length: 199 }, (_, i) => reading(String(i)));
    entries.splice(100, 0, { ...reading(), payload: { value: 'hot' } });
    const { body } = await atSite(entries).expect(200);
    expect(body.filter((r: { as: string }) => r.as === 'recorded')).toHaveLength(199);
    expect(body[100]).toMatchObject({ as: 'refused', problem: 'malformed' });
  });

  it('lets so many wait and asks the next to come again; nothing that waits is lost', async () => {
    const crowd = maxWaiting / 200 + 2; // one is being written, so many wait, and one is too many
    const owner = new pg.Client({ connectionString: t.database.ownerUrl });
    await owner.connect();
    await owner.query('BEGIN');
    await owner.query('SELECT FROM book WHERE id = $1 FOR UPDATE', [house.site]);
    const refused: request.Response[] = [];
    const sentEachTime = Array.from({ length: 200 }, () => reading());
    const all = Array.from({ length: crowd }, async () => {
      const answer = await atSite(sentEachTime);
      if (answer.status !== 200) refused.push(answer);
      return answer;
    });
    const first = await Promise.race(all); // the others wait for the book
    await owner.query('ROLLBACK');
    await owner.end();
    const answers = await Promise.all(all);
    expect(first.status).toBe(503);
    expect(refused.map((a) => [a.body.type, a.headers['retry-after']])).toEqual([[expect.stringContaining('unavailable'), '2']]);
    const said = answers.flatMap((a) => (a.status === 200 ? a.body : [])).map((r: { as: string }) => r.as);
    expect(said.filter((as) => as === 'recorded')).toHaveLength(200);
    expect(said.filter((as) => as === 'already-recorded')).toHaveLength((crowd - 2) * 200);
  });

  it('does not open for a stranger, for another business’s site, or without the role', async () => {
    const other = await House.found(t);
    await other.administrator
      .post(`/sites/${house.site}/entries`, [reading()])
      .expect(422)
      .expect(({ body }) => expect(body.title).toBe('No such site'));
    const looker = await house.signedOn('Lu Looks', ['viewer']);
    const { body } = await looker.post(`/sites/${house.site}/entries`, [reading()]).expect(200);
    expect(body).toMatchObject([{ as: 'refused', problem: 'not-permitted' }]);
  });

  it('gives the night in one request, with what was just recorded', async () => {
    const { body } = await baker.get(`/sites/${house.site}/night`).expect(200);
    expect(body.rows.reading.length).toBeGreaterThan(199);
    expect(body.rows.person.map((p: { name: string }) => p.name)).toContain('Bo Baker');
  });
});
