import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { allCalculations } from '../../apps/api/src/modules/calculate/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import type { Answer } from '../support/example.js';
import { foodSafetyExamples } from '../support/food-safety-examples.js';
import { bakeryExamples } from '../support/bakery-examples.js';

let t: TestApp;
beforeAll(async () => {
  t = await startTestApp();
});
afterAll(() => t.close());

const asked = [...foodSafetyExamples, ...bakeryExamples];
const post = (name: string, body: object) => request(t.server).post(`/api/v1/calculate/${name}`).send(body);

async function answered(name: string, body: object): Promise<Answer> {
  const { status, body: answer } = await post(name, body);
  expect([status, answer]).toEqual([
    200,
    expect.objectContaining({ inputs: expect.any(Object), source: expect.any(String), cautions: expect.any(Array) }),
  ]);
  const read = answer as Answer; // the route's contract
  expect(read['explanation']).toMatch(/^[\s\S]{30,}[.)”]$/);
  expect(read).toHaveProperty('validRange');
  return read;
}

describe('calculations without sign-on', () => {
  it('has a stranger’s request here for every one', () => {
    expect([...new Set(asked.map(([name]) => name))].sort()).toEqual(allCalculations.map(({ name }) => name).sort());
  });

  it.each(asked)('%s: %s', async (name, _source, body, expected) => {
    expect(await answered(name, body)).toMatchObject(expected);
  });

  it.each(allCalculations.map(({ name, example }) => [name, example] as const))(
    '%s answers the example of its description',
    async (name, example) => {
      await answered(name, example as object); // each example is an object
    },
  );
});
