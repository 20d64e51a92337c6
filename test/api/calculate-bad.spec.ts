import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { startTestApp, type TestApp } from '../support/app.js';
import { near } from '../support/example.js';

let t: TestApp;
beforeAll(async () => {
  t = await startTestApp();
});
afterAll(() => t.close());

const ramp = '{"profile":[{"minutes":0,"celsius":60},{"minutes":10,"celsius":%}],"referenceCelsius":70,"zCelsius":7.5}';
const long = (one: unknown): string => JSON.stringify(Array.from({ length: 100_000 }, () => one));

describe('a bad request', () => {
  it.each([
    ['lethality', ramp.replace('%', '1e400'), 'profile.1.celsius', /a number from -90 to 300/],
    ['lethality', ramp.replace('%', '"80"'), 'profile.1.celsius', /°C/],
    ['lethality', '{"profile":[],"referenceCelsius":70,"zCelsius":7.5}', 'profile', /2 to 1000000 readings/],
    [
      'lethality',
      '{"profile":[{"minutes":5,"celsius":60},{"minutes":1,"celsius":60}],"referenceCelsius":70,"zCelsius":7.5}',
      'profile.1.minutes',
      /time order: 5 or more/,
    ],
    ['lethality', '[]', '', /only the fields profile/],
    [
      'lethality',
      '{"profile":[{"minutes":0,"celsius":60},{"minutes":1,"celsius":61}],"referenceCelsius":70,"zCelsius":7.5,"speed":3}',
      'speed',
      /only the fields .*zCelsius/,
    ],
    ['average-quantity', '{"nominalGrams":400,"weightsGrams":[401,-1]}', 'weightsGrams.1', /from 0/],
    ['scale-formula', '{"ingredients":[{"name":"flour","grams":-5,"flour":true}],"to":{"doughGrams":10}}', 'ingredients.0.grams', /from 0/],
    ['bake-loss', '{"doughGrams":-5,"percent":2}', 'doughGrams', /above 0/],
    ['guarded-verdict', '{"value":4,"unit":"°C","limit":{"max":5,"unit":"kg"},"halfWidth":0}', 'unit', /converts to kg/],
    ['convert', '{"value":4,"from":"g","to":"ml"}', 'to', /density/],
    ['convert', '{"value":4,"from":"gallon","to":"l"}', 'from', /uk-gal or us-gal/],
    [
      'water-temperature',
      '{"wanted":26,"factors":{"flour":65,"room":175,"friction":8},"unit":"C","terms":3}',
      'factors.room',
      /-40 to 100 degC/,
    ],
    ['quid', '{"declared":[{"name":"butter","grams":1}],"finishedGrams":1e-308}', 'finishedGrams', /0\.001/],
    ['individuals-chart', `{"values":${'['.repeat(50_000)}${']'.repeat(50_000)}}`, 'values', /at least 2 values/],
    [
      'total-formula',
      `{"ingredients":[{"name":"a","grams":1,"flour":false,"preferment":${'{"parts":'.repeat(50_000)}1${'}'.repeat(50_000)}}]}`,
      'ingredients.0.preferment',
      /parts/,
    ],
    ['individuals-chart', `{"values":${long('x')}}`, 'values.0', /finite number/],
    ['ccp-decision', `{"edition":"2022","answers":${long(true)}}`, 'answers', /q1/],
    ['gs1-parse', `{"elements":${long({ ai: '10', value: 'x' })}}`, 'elements', /60/],
    ['no-such-sum', '{}', 'name', /lethality/],
  ])('%s %.60s: names %s and what is acceptable', async (name, raw, field, acceptable) => {
    const { status, type, body } = await request(t.server)
      .post(`/api/v1/calculate/${name}`)
      .set('content-type', 'application/json')
      .send(raw);
    expect([status, type]).toEqual([expect.any(Number), 'application/problem+json']);
    expect([400, 404, 422]).toContain(status);
    expect(body).toMatchObject({
      field,
      acceptable: expect.stringMatching(acceptable),
      title: expect.any(String),
      detail: expect.stringContaining('Acceptable: '),
    });
  });

  it.each(['NaN', 'Infinity', '-Infinity'])('%s is no JSON, and the answer says so', async (figure) => {
    const { status, body } = await request(t.server)
      .post('/api/v1/calculate/lethality')
      .set('content-type', 'application/json')
      .send(ramp.replace('%', figure));
    expect([status, body]).toEqual([400, expect.objectContaining({ type: expect.stringMatching(/malformed-json$/) })]);
  });
});

describe('a million points', () => {
  it('are answered, and one more is refused', async () => {
    const held = (points: number): string =>
      `{"profile":[${'{"minutes":0,"celsius":70},'.repeat(points - 1)}{"minutes":2,"celsius":70}],"referenceCelsius":70,"zCelsius":7.5}`;
    const send = (raw: string) => request(t.server).post('/api/v1/calculate/lethality').set('content-type', 'application/json').send(raw);
    expect((await send(held(1_000_000))).body).toMatchObject({ equivalentMinutes: near(2), inputs: { profile: { readings: 1_000_000 } } });
    expect((await send(held(1_000_001))).body).toMatchObject({ status: 400, field: 'profile' });
  });
});
