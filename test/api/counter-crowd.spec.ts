import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request, { type Test } from 'supertest';
import { startTestApp, type TestApp } from '../support/app.js';
import { House } from '../support/people.js';
import { roomReading } from '../support/payloads.js';
import { statementsDuring } from '../support/queries-during.js';

describe('the counter, which anybody may ask', () => {
  let t: TestApp;
  let house: House;
  beforeAll(async () => {
    t = await startTestApp();
    house = await House.found(t);
    await ask();
  });
  afterAll(() => t.close());

  const ask = (): Test => request(t.server).get(`/api/v1/counter/${house.site}`);
  const record = async (): Promise<void> => {
    const baker = await house.signedOn('Bo Baker', ['baker']);
    await baker
      .post(`/sites/${house.site}/entries`, [house.entry({ kind: 'reading-taken', payload: roomReading(house.site) })])
      .expect(200);
  };
  const works = (statements: readonly string[]): number =>
    statements.filter((s) => s.includes('DISTINCT ON (lot) lot, way FROM on_counter')).length;

  it('is worked out once for all who ask at once', async () => {
    await record();
    const statements = await statementsDuring(() => Promise.all(Array.from({ length: 6 }, () => ask().expect(200))));
    expect(works(statements)).toBe(1);
  });

  it('answers one address so often a minute, and tells it to wait', async () => {
    const statuses: number[] = [];
    for (let i = 0; i < 310; i += 1) statuses.push((await request(t.server).get('/api/v1/counter/sites')).status);
    expect([statuses[0], statuses[250], statuses.at(-1)]).toEqual([200, 200, 429]);
  });
});
