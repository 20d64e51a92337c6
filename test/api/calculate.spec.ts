import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { allCalculations } from '../../apps/api/src/modules/calculate/index.js';
import { startTestApp, type TestApp } from '../support/app.js';

let t: TestApp;
beforeAll(async () => {
  t = await startTestApp();
});
afterAll(() => t.close());

type Answer = Readonly<Record<string, unknown>>;
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

const profile = (...points: readonly (readonly [number, number])[]) => points.map(([minutes, celsius]) => ({ minutes, celsius }));
const near = (figure: number, digits = 6): unknown => expect.closeTo(figure, digits);
const values = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
const gs = '\u001d';

/** Requests as a stranger writes them from the table of names and fields, with what an outside source says of each. */
const asked: readonly (readonly [name: string, source: string, body: object, answer: Answer])[] = [
  [
    'lethality',
    'exact integral of 10^((T−70)/7.5), by hand',
    { profile: profile([0, 60], [10, 80]), referenceCelsius: 70, zCelsius: 7.5 },
    { equivalentMinutes: near(35.011623, 5), logReduction: null, outsideMeasuredRange: null },
  ],
  [
    'lethality',
    'Channaiah et al. 2016: bun dough was measured from 55 to 61 °C',
    {
      profile: profile([0, 70], [2, 70]),
      referenceCelsius: 61,
      zCelsius: 6.58,
      dMinutes: 3.14,
      measuredFromCelsius: 55,
      measuredToCelsius: 61,
    },
    { logReduction: null, outsideMeasuredRange: true, reason: expect.stringContaining('Outside the measured range') },
  ],
  [
    'equivalent-hold',
    'UK guidance lists 45 min, rounded up',
    { referenceCelsius: 70, referenceMinutes: 2, zCelsius: 7.5, celsius: 60 },
    { minutes: near(43.0886938) },
  ],
  [
    'z-value',
    'Channaiah et al. 2017, muffin batter 10.4',
    {
      points: [
        { celsius: 55, dMinutes: 62.2 },
        { celsius: 58, dMinutes: 40.1 },
        { celsius: 61, dMinutes: 16.5 },
      ],
    },
    { zCelsius: near(10.41, 2), slope: expect.any(Number), r2: expect.any(Number) },
  ],
  [
    'cooling',
    'FDA Food Code 3-501.14(A): the second limit is six hours in all',
    { profile: profile([0, 57], [60, 21], [360, 5]), rule: 'us-cooked' },
    { verdict: 'pass', stages: [expect.objectContaining({ observedMinutes: 60 }), expect.objectContaining({ observedMinutes: 360 })] },
  ],
  [
    'cooling',
    'FDA Food Code 3-501.14(B), four hours exceeded by a second',
    { profile: profile([0, 22], [240 + 1 / 60, 5]), rule: 'us-from-ambient' },
    { verdict: 'fail' },
  ],
  [
    'cooling',
    'a site’s own stages',
    { profile: profile([0, 60], [90, 10]), rule: { stages: [{ toCelsius: 10, withinMinutes: 90 }] } },
    { verdict: 'pass', stages: [expect.objectContaining({ fromCelsius: null, observedMinutes: 90 })] },
  ],
  [
    'holding',
    'FDA Food Code 3-501.16: 5 °C is inside',
    { profile: profile([0, 5], [600, 5]), rule: 'cold-us' },
    { verdict: 'pass', longestMinutesOutside: 0 },
  ],
  [
    'holding',
    'FDA Food Code 3-501.16: 56.9 °C is outside',
    { profile: profile([0, 56.9], [10, 56.9]), rule: 'hot-us' },
    { verdict: 'fail', totalMinutesOutside: 10 },
  ],
  [
    'holding',
    'SI 2013/2996 Sch. 4: less than four hours, so not four',
    { profile: profile([0, 8.1], [240, 8.1]), rule: 'cold-england' },
    { verdict: 'fail', defenceCouldApply: false },
  ],
  [
    'holding',
    'SI 2013/2996 Sch. 4: less than two hours',
    { profile: profile([0, 62], [119, 62]), rule: 'hot-england' },
    { verdict: 'fail', defenceCouldApply: true, defenceConditions: expect.arrayContaining([expect.stringContaining('once only')]) },
  ],
  [
    'holding',
    'FDA Food Code 3-501.19(B)',
    { profile: profile([0, 5], [240, 24]), rule: 'four-hour' },
    { verdict: 'pass', minutesSinceStart: 240 },
  ],
  [
    'holding',
    'FDA Food Code 3-501.19(C): never above 21 °C',
    { profile: profile([0, 5], [100, 21.1]), rule: 'six-hour' },
    { verdict: 'fail' },
  ],
  [
    'temperature-control-needed',
    'FDA Food Code 1-201.10, table A',
    { ph: 4.6, waterActivity: 0.95, heatTreatedThenPackaged: true },
    { table: 'A', result: 'not-needed' },
  ],
  [
    'temperature-control-needed',
    'FDA Food Code 1-201.10, table B',
    { ph: 6.5, waterActivity: 0.97, heatTreatedThenPackaged: false },
    { table: 'B', result: 'assess', advice: 'treat as controlled until assessed' },
  ],
  [
    'ccp-decision',
    'Codex CXC 1-1969, text of 2022',
    { edition: '2022', answers: { Q1: 'No', Q2: 'Yes', Q3: 'No', Q4: 'Yes' } },
    { outcome: 'ccp', decidedBy: 'Q4' },
  ],
  [
    'ccp-decision',
    'Codex CXC 1-1969, text of 2022',
    { edition: 2022, answers: [false, true, true, true] },
    { outcome: 'later-step', decidedBy: 'Q3' },
  ],
  [
    'ccp-decision',
    'Codex CAC/RCP 1-1969 Rev. 4, diagram 2',
    { edition: 'CAC/RCP 1-1969 (2003)', answers: ['no', 'yes'] },
    { outcome: 'modify', decidedBy: 'Q1b' },
  ],
  [
    'guarded-verdict',
    '165 °F is 73.89 °C, by definition',
    { value: 73.8, unit: '°C', limit: { min: 165, unit: '°F' }, halfWidth: 0 },
    { verdict: 'outside', valueInLimitUnit: '164.84' },
  ],
  [
    'guarded-verdict',
    '8.0 meets a limit of 8; half a degree of doubt leaves it open',
    { value: 8, unit: 'celsius', limit: { max: 8, unit: 'C' }, halfWidth: 0.5 },
    { verdict: 'unsure' },
  ],
  [
    'probe-reference',
    'IAPWS-IF97 table 36, 0.1 MPa',
    { pressurePascal: 100_000 },
    { boilingCelsius: near(99.605919), iceCelsius: 0, assumed: 'pressure' },
  ],
  [
    'probe-reference',
    'ICAO standard atmosphere, 1500 m',
    { altitudeMetres: 1500 },
    { boilingCelsius: near(94.98, 2), assumed: 'altitude' },
  ],
  [
    'probe-check',
    'a window of 99 to 101 °C would fail this sound probe at 300 m',
    { kind: 'boiling', readCelsius: 98.9, toleranceCelsius: 1, altitudeMetres: 300 },
    { verdict: 'pass' },
  ],
  [
    'probe-check',
    'regulators’ guidance: ice 0 ± 1 °C',
    { kind: 'ice', readCelsius: -1.1, toleranceCelsius: 1 },
    { verdict: 'fail', offsetCelsius: -1.1 },
  ],
  [
    'individuals-chart',
    'NIST/SEMATECH e-Handbook 6.3.2.2',
    { values },
    { centre: near(50.81), limits: { lower: near(45.8159, 4), upper: near(55.8041, 4) } },
  ],
  [
    'xbar-r-chart',
    'A2 of 5 is 0.577, D4 is 2.115',
    { values: [1, 2, 3, 4, 5, 2, 3, 4, 5, 6], subgroupSize: 5 },
    {
      centre: 3.5,
      limits: { lower: near(3.5 - 0.577 * 4), upper: near(3.5 + 0.577 * 4) },
      range: expect.objectContaining({ limits: { lower: 0, upper: near(8.46) } }),
    },
  ],
  [
    'xbar-s-chart',
    'A3 of 2 is 2.659 (ASTM MNL 7, from memory)',
    {
      subgroups: [
        [1, 3],
        [2, 4],
      ],
    },
    { centre: 2.5, limits: { lower: near(2.5 - 2.659 * Math.SQRT2, 2), upper: near(2.5 + 2.659 * Math.SQRT2, 2) } },
  ],
  [
    'ewma-chart',
    'NIST/SEMATECH e-Handbook 6.3.2.4, limits 52.5884 and 47.4115',
    { values: [52, 47, 53, 49.3], lambda: 0.3, start: 50, sigma: 2.0539, L: 3 },
    {
      centre: 50,
      limits: { lower: near(47.4116, 3), upper: near(52.5884, 4) },
      points: expect.arrayContaining([expect.objectContaining({ ewma: near(50.6) })]),
    },
  ],
  [
    'cusum-chart',
    'NIST/SEMATECH e-Handbook 6.3.2.3',
    { values: [324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 328.325], target: 325, k: 0.3175, h: 4.1959 },
    { points: expect.arrayContaining([{ high: near(3.0075), low: 0 }]), signals: [] },
  ],
  [
    'run-rules',
    'Nelson 1984: nine on one side, eight are not enough',
    { values: [1, 1, 1, 1, 1, 1, 1, 1, 1], centre: 0, sigma: 5, rules: ['rule-2'] },
    { signals: [{ rule: 2, index: 8 }] },
  ],
  [
    'capability',
    'NIST/SEMATECH e-Handbook 6.1.6',
    { mean: 16, sigma: 2, lsl: 8, usl: 20 },
    { cp: 1, cpk: near(0.6667, 4), cpl: near(1.3333, 4), cpu: near(0.6667, 4), warning: expect.any(String) },
  ],
  [
    'average-quantity',
    'SI 2006/659: 12 g at 400 g',
    { nominalGrams: 400, weightsGrams: [400, 400, 388] },
    {
      tneGrams: 12,
      t1Grams: 388,
      t2Grams: 376,
      rules: [
        expect.objectContaining({ verdict: 'fail' }),
        expect.objectContaining({ verdict: 'pass' }),
        expect.objectContaining({ verdict: 'pass' }),
      ],
    },
  ],
  [
    'reference-test',
    'SI 2006/659 Sch. 2: 50, 3 and 4; 0.379 s',
    { nominalGrams: 400, lotSize: 400, weightsGrams: Array.from({ length: 50 }, (_, i) => 399 + 2 * (i % 2)), destructive: false },
    {
      plan: expect.objectContaining({ n: 50, accept: 3, reject: 4 }),
      s: near(1.010153),
      meanLimitGrams: near(400 - 0.379 * 1.010153, 3),
      verdict: 'accept',
    },
  ],
  [
    'scale-formula',
    'a tenth of a thousand: exact',
    {
      ingredients: [
        { name: 'flour', grams: 1000, flour: true },
        { name: 'water', grams: 600, flour: false },
      ],
      to: { pieces: 4, scalingGrams: 400 },
    },
    {
      doughGrams: 1600,
      lines: [expect.objectContaining({ grams: 1000, bakersPercent: 100 }), expect.objectContaining({ grams: 600, bakersPercent: 60 })],
    },
  ],
  [
    'total-formula',
    'flour in the preferment counts: 1100 g in all',
    {
      formula: {
        ingredients: [
          { name: 'flour', grams: 1000, flour: true },
          { name: 'water', grams: 600, flour: false },
          { name: 'poolish', grams: 200, flour: false },
        ],
        preferments: [
          {
            name: 'poolish',
            ingredients: [
              { name: 'flour', grams: 100, flour: true },
              { name: 'water', grams: 100, flour: false },
            ],
          },
        ],
      },
    },
    {
      view: 'total',
      flourGrams: 1100,
      totalGrams: 1800,
      lines: [expect.objectContaining({ grams: 1100, bakersPercent: 100 }), expect.objectContaining({ grams: 700, bakersPercent: 63.636 })],
    },
  ],
  [
    'water-temperature',
    'trade press: 3·80 − (65 + 75 + 35) = 65 °F',
    { wanted: 80, factors: { flour: 65, room: 75, friction: 35 }, unit: '°F', terms: 3 },
    { waterFahrenheit: 65, waterCelsius: near(18.3333, 4), frictionCelsius: near(19.4444, 4) },
  ],
  [
    'friction-factor',
    'trade press: 3·80 − (75 + 65 + 65) = 35 °F, a difference',
    { actual: 80, factors: [65, 75, 65], unit: 'fahrenheit', terms: 3 },
    { frictionFahrenheit: 35, frictionCelsius: near(19.4444, 4) },
  ],
  [
    'ice',
    'heat balance with 80 °C: 4.444 kg on top of 40 kg',
    { waterKilograms: 40, tapCelsius: 20, wantedCelsius: 10, way: 'adding' },
    { iceKilograms: near(4.444444), waterKilograms: 40 },
  ],
  ['bake-loss', '400 g at 12 % is 454.55 g of dough', { bakedGrams: 400, percent: 12 }, { doughGrams: near(454.545, 3) }],
  ['convert', 'NIST HB 44: 16 oz are 1 lb exactly', { value: 16, from: 'ounces', to: 'lbs' }, { value: '1', exact: '1', rounded: 1 }],
  ['convert', 'NIST HB 44: the imperial gallon', { value: '2', from: 'gal_uk', to: 'litres' }, { value: '9.09218', rounded: 9.092 }],
  [
    'convert',
    '190/9: a decimal that never ends',
    { value: 70, from: 'degrees Fahrenheit', to: '℃' },
    { value: expect.stringMatching(/^21\.1{20,}$/), exact: null, fraction: '190/9', reason: expect.any(String) },
  ],
  [
    'ingredient-list',
    'Regulation (EU) 1169/2011 Annex VII: 380 g of water in 1410 g',
    {
      lines: [
        { name: 'wheat flour', ingoingGrams: 1000, allergens: ['wheat'] },
        { name: 'water', ingoingGrams: 600 },
        { name: 'salt', ingoingGrams: 20 },
        { name: 'yeast', ingoingGrams: 10 },
      ],
      finishedGrams: 1410,
      regime: 'UK',
    },
    {
      text: 'Ingredients: WHEAT flour, water, salt, yeast',
      waterDeclared: true,
      water: expect.objectContaining({ grams: 380, percent: near(26.9504, 4) }),
    },
  ],
  [
    'quid',
    'Regulation (EU) 1169/2011 Annex VIII: 110 % becomes grams',
    {
      ingredients: [
        { name: 'butter', grams: 60, declared: true },
        { name: 'flour', grams: 50 },
        { name: 'salt', grams: 9, declared: false },
      ],
      finishedGrams: 100,
    },
    { text: '60 g butter and 50 g flour per 100 g', totalPercent: 110 },
  ],
  [
    'clean-down-sequence',
    'all six orders by hand: b, a, c costs 2 + 1',
    {
      makes: ['a', 'b', 'c'].map((name) => ({ name, allergens: [] })),
      costs: [
        [0, 5, 1],
        [2, 0, 3],
        [4, 4, 0],
      ],
      mustBeLast: 'c',
    },
    { order: ['b', 'a', 'c'], cost: 3, exact: true },
  ],
  ['gs1-check-digit', 'GS1 General Specifications', { key: '37610425002123456' }, { digit: 9 }],
  [
    'gs1-parse',
    'GS1 General Specifications; the century of November 2026',
    { text: ']C10105412345000013310300018917760200' + '10ABC' },
    { valid: true, errors: [], fields: expect.objectContaining({ useBy: '2076-02-29', netMassGrams: 189, lot: 'ABC' }) },
  ],
  [
    'gs1-parse',
    '2021 had no 29 February',
    { text: '(01) 05412345000013 (17) 210229' },
    { valid: false, errors: [expect.objectContaining({ rule: 'date', ai: '17' })] },
  ],
  [
    'gs1-parse',
    'FNC1 written out',
    { text: '010541234500001310ABC[FNC1]15260300' },
    { valid: true, fields: expect.objectContaining({ lot: 'ABC', bestBefore: '2026-03-31' }) },
  ],
  [
    'gs1-element-string',
    'GS1 General Specifications: FNC1 after (10), none after the last',
    {
      elements: [
        ['01', '05412345000013'],
        ['10', 'ABC'],
        ['15', '260300'],
      ],
    },
    { elementString: `010541234500001310ABC${gs}15260300` },
  ],
  [
    'gs1-digital-link',
    'GS1 Digital Link: the standard’s own example',
    { text: '(3103)000189(01)05412345000013(3923)2172(10)ABC&+123' },
    { uri: 'https://id.gs1.org/01/05412345000013/10/ABC%26%2B123?3103=000189&3923=2172' },
  ],
];

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
