import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { House } from '../support/people.js';
import { queriesDuring } from '../support/queries-during.js';

let t: TestApp;
let b: Bakehouse;
let white: string;
let tartlets: string;
let signs: Hand;
beforeAll(async () => {
  t = await startTestApp();
  b = await Bakehouse.found(t);
  signs = new Hand(b.house, b.lead.caller, null);
  const { body } = await b.owner.caller.get('/formulas').expect(200);
  const called = (name: string): string => String(body.find((f: { name: string }) => f.name === name).formula);
  [white, tartlets] = [called('white dough'), called('almond tartlets')];
});
afterAll(() => t.close());

const look = (path: string) => b.baker.caller.get(path);
const sum = (lines: readonly { mg: number }[]): number => lines.reduce((mg, l) => mg + l.mg, 0);

describe('formulas', () => {
  it('are listed with who signed them and when, those retired apart', async () => {
    const { body } = await look('/formulas').expect(200);
    expect(body.map((f: { name: string }) => f.name)).toEqual(['almond tartlets', 'frangipane', 'treacle tarts', 'white dough']);
    expect(body[3]).toMatchObject({
      number: 1,
      type: 'dough',
      totalMg: 41_450_000,
      flourMg: 25_000_000,
      retired: null,
      signed: { name: 'Lee Dehl', person: b.lead.caller.person, meaning: 'I approve this version; it is in force from now on' },
    });
    const treacle = String(body[2].formula);
    await signs.record('formula-retired', { formula: treacle }, { at: at('03:00') });
    expect((await look('/formulas').expect(200)).body[2]).toMatchObject({ name: 'treacle tarts', retired: '2026-11-25T03:00:00.000Z' });
    expect((await look(`/formulas/${treacle}`).expect(200)).body).toMatchObject({
      retired: '2026-11-25T03:00:00.000Z',
      shown: { inForce: false },
    });
  });

  it('show percentages of all flours, allergens through what is made here, and the caution', async () => {
    const { body } = await look(`/formulas/${white}`).expect(200);
    expect(body.asWritten.lines.map((l: { percent: number }) => l.percent)).toEqual([100, 60, 1.8, 2, 2]);
    expect(body.asWritten.lines[0]).toMatchObject({ name: 'strong white flour', mg: 25_000_000, grams: '25 kg', pounds: '55 lb 1.8 oz' });
    expect(body).toMatchObject({
      allergens: { contains: ['wheat'], notKnown: [] },
      scaled: null,
      shown: { number: 1, inForce: true },
      caution: expect.stringContaining('competent person'),
    });
    const filled = await look(`/formulas/${tartlets}`).expect(200);
    expect(filled.body.allergens.contains).toEqual(['wheat', 'eggs', 'milk', 'almond']);
    expect(filled.body.asWritten.view).toBe('as-written');
    expect(filled.body.total.view).toBe('total');
  });

  // 20 × 910 + 12 × 465 + 216 × 75 + 1,470 g of old dough and scrap are the 41,450 g of the formula: by hand.
  it('scale to pieces with what is kept besides: the night’s dough, line by line', async () => {
    const { body } = await look(
      `/formulas/${white}?pieces=${b.material('tin')}:20&pieces=${b.material('bloomer')}:12&pieces=${b.material('bap')}:216&besidesGrams=1470`,
    ).expect(200);
    expect(body.scaled.asWritten.lines.map((l: { mg: number }) => l.mg)).toEqual([25_000_000, 15_000_000, 450_000, 500_000, 500_000]);
    expect(body.scaled.wanted).toBe('20 × white tin 800 g, 12 × bloomer 400 g, 216 × bap, and 1470 g besides');
  });

  // 1 lb = 453.59237 g and 1 oz a sixteenth of it, exactly: NIST SP 811 (2008) appendix B.8.
  it.each([
    ['grams=1000.001', 1_000_001],
    ['pounds=10&ounces=3.5', 4_635_147],
    ['ounces=1', 28_350],
    [`grams=0.007`, 7],
  ])('scale to %s, and the lines sum to it exactly', async (query, mg) => {
    const { body } = await look(`/formulas/${white}?${query}`).expect(200);
    expect([body.scaled.mg, sum(body.scaled.asWritten.lines), sum(body.scaled.total.lines)]).toEqual([mg, mg, mg]);
  });

  it.each([
    ['grams=0', 422, 'grams'],
    ['grams=5&pounds=1', 422, 'grams'],
    ['grams=-5', 400, 'grams'],
    ['pieces=bap:5', 400, 'pieces'],
    ['number=7', 422, 'number'],
    ['gram=5', 400, ''],
    ['grams=1e400', 400, 'grams'],
    ['pieces=00000000-0000-4000-8000-000000000000:4', 422, 'pieces'],
  ])('say what would do for %s', async (query, status, field) => {
    const { body } = await look(`/formulas/${white}?${query}`).expect(status);
    expect(String(body.field ?? '').split('.')[0]).toBe(field);
    expect(body.detail).toEqual(expect.any(String));
  });

  it('are for those who may look, of one house, by fewer than ten queries whatever there is', async () => {
    const other = await House.found(t);
    const theirs = await other.signedOn('Ola Ther', ['manager']);
    expect((await theirs.get('/formulas').expect(200)).body).toEqual([]);
    await theirs.get(`/formulas/${white}`).expect(422);
    await look('/formulas/not-an-id').expect(400);
    const inspector = await b.house.signedOn('Ina Spektor', ['inspector']);
    await inspector.get('/formulas').expect(403);
    const [one, another] = [
      await queriesDuring(() => look(`/formulas/${white}`).expect(200)),
      await queriesDuring(() => look(`/formulas/${tartlets}`).expect(200)),
    ];
    expect(one).toBe(another);
    expect(one).toBeLessThan(10);
  });
});

describe('water for this mixer', () => {
  const mix = async (time: string, station: string, fast: number, dough: string) => {
    const make = await b.begun('white', time, { station, plannedMg: 41_450_000 });
    const payload = {
      make,
      minutesSlow: 4,
      minutesFast: fast,
      water: celsius('19'),
      flour: celsius('21'),
      room: celsius('24'),
      dough: celsius(dough),
    };
    await b.baker.record('mixed', payload, { at: time });
  };
  const asked = (mixer: string, more = '') => look(`/sites/${b.site}/formulas/${white}/water?mixer=${mixer}&flour=21&room=24${more}`);

  it('goes by the formula’s factor until this mixer has mixed it, and says so', async () => {
    const { body } = await asked(b.place('mixer')).expect(200);
    // 3 × 26 − (21 + 24 + 14) = 19: the sum of factors, common practice; 26 is the middle of 24.5 to 27.5.
    expect(body).toMatchObject({
      friction: { from: 'formula', celsius: 14, used: [] },
      water: { celsius: 19, fahrenheit: 66.2, reachable: true },
      missing: null,
    });
  });

  it('goes by the middle of this mixer’s own mixes that compare, and leaves out nine fast minutes where six are meant', async () => {
    await mix(at('01:00', '2026-11-23'), b.place('mixer'), 6, '26.4'); // 3 × 26.4 − 64 = 15.2
    await mix(at('01:00', '2026-11-24'), b.place('mixer'), 6, '26.6'); // 15.8
    await mix(at('02:35'), b.place('mixer'), 9, '28.5'); // 21.5, as mixed too long
    await mix(at('02:40'), b.place('smallMixer'), 6, '27'); // another mixer's
    const { body } = await asked(b.place('mixer')).expect(200);
    expect(body.friction).toMatchObject({
      from: 'recent-mixes',
      celsius: 15.5,
      leastCelsius: 15.2,
      maxCelsius: 15.8,
      used: [{ frictionCelsius: 15.8 }, { frictionCelsius: 15.2 }],
      others: [{ frictionCelsius: 21.5, minutesFast: 9 }],
    });
    expect(body.water.celsius).toBe(17.5);
    expect((await asked(b.place('smallMixer')).expect(200)).body.friction.celsius).toBe(17);
    const half = await asked(b.place('mixer'), '&grams=12000').expect(200);
    expect(half.body.friction).toMatchObject({ from: 'formula', celsius: 14 });
  });

  it('takes Fahrenheit for what it is, a friction factor for a difference', async () => {
    const { body } = await look(
      `/sites/${b.site}/formulas/${white}/water?mixer=${b.place('mixer')}&flour=69.8&room=75.2&wanted=78.8&unit=degF`,
    ).expect(200);
    expect(body.water).toMatchObject({ celsius: 17.5, fahrenheit: 63.5 });
  });

  it('gives no figure from nothing, nor at a place or a site that is not there', async () => {
    const { body } = await look(`/sites/${b.site}/formulas/${tartlets}/water?mixer=${b.place('mixer')}&flour=21&room=24&wanted=20`).expect(
      200,
    );
    expect(body).toMatchObject({
      friction: { from: 'nothing', celsius: null },
      water: null,
      missing: expect.stringContaining('No friction factor'),
    });
    await asked(uuidv7(t.clock.now())).expect(422);
    await asked(b.place('mixer'), '&wanted=200').expect(422);
    const other = await House.found(t);
    await other.administrator.get(`/sites/${b.site}/formulas/${white}/water?mixer=${b.place('mixer')}&flour=21&room=24`).expect(422);
  });
});
