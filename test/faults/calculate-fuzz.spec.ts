import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import request from 'supertest';
import { allCalculations } from '../../apps/api/src/modules/calculate/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { expectProblem } from '../support/problems.js';
import { size } from '../support/size.js';

/** Names that every object has from its prototype, or that are read from it where a name is looked up without asking whose it is. */
const inherited = ['toString', 'valueOf', 'constructor', 'hasOwnProperty', 'toJSON', 'length', 'then'] as const;
const odd = fc.oneof(
  fc.constantFrom<unknown>(1, null, '', 'toString', '__proto__', 'constructor', [], {}),
  fc.dictionary(fc.constantFrom(...inherited), fc.constantFrom<unknown>(1, null, 'x', []), { minKeys: 1, maxKeys: 3 }),
);

/** Every place in an example, as the steps that lead there. */
function placesIn(value: unknown, steps: readonly string[] = []): (readonly string[])[] {
  const inner = typeof value === 'object' && value !== null ? Object.entries(value) : [];
  return [steps, ...inner.flatMap(([name, one]) => placesIn(one, [...steps, name]))];
}

/** The example with something else at a place, or with a name beside what is there. */
function changedAt(value: unknown, [step, ...further]: readonly string[], to: unknown): unknown {
  if (step === undefined) return to;
  if (Array.isArray(value)) return value.map((one, i) => (String(i) === step ? changedAt(one, further, to) : one));
  const fields = typeof value === 'object' && value !== null ? value : {};
  return { ...fields, [step]: changedAt(new Map(Object.entries(fields)).get(step), further, to) };
}

/** An example with something odd in it: in place of what is there, or under an inherited name beside it. */
const oddly = (example: unknown): fc.Arbitrary<unknown> =>
  fc
    .record({ at: fc.constantFrom(...placesIn(example)), beside: fc.option(fc.constantFrom(...inherited)), to: odd })
    .map(({ at, beside, to }) => changedAt(example, beside === null ? at : [...at, beside], to));

let t: TestApp;
beforeAll(async () => {
  t = await startTestApp();
});
afterAll(() => t.close());

describe('a calculation of which something has a name that every object has', () => {
  const post = (name: string, body: string) =>
    request(t.server).post(`/api/v1/calculate/${name}`).set('content-type', 'application/json').send(body);

  it('is told what is wrong where an edition is an object with a toString of its own', async () => {
    const { status, body } = await post('ccp-decision', '{"edition":{"toString":1},"answers":{"q1":true}}');
    expect([status, body.field]).toEqual([400, 'edition.toString']);
  });

  it.each(allCalculations.map((c) => [c.name, c] as const))('%s is worked out or refused, and never fails', async (name, calculation) => {
    for (const body of fc.sample(oddly(calculation.example), { seed: 9, numRuns: size(20, 400) })) {
      const response = await post(name, JSON.stringify(body));
      if (response.status !== 200) expectProblem(response, [name, body]);
      expect(response.status).toBeLessThan(500);
    }
  });

  it.each(['{"__proto__":{"x":1}}', '{"constructor":{"prototype":{"x":1}}}', '{"answers":{"__proto__":1}}', '["__proto__"]', 'null', '1'])(
    '%s is refused as a whole',
    async (body) => expectProblem(await post('ccp-decision', body), body),
  );
});
