import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius } from '../support/bakehouse.js';
import { putAway, save } from '../support/drafts.js';
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

describe('formulas as they are baked by', () => {
  it('are listed with who signed them and when, those put away apart', async () => {
    const { body } = await look('/formulas').expect(200);
    expect(body.map((f: { name: string }) => f.name)).toEqual(['almond tartlets', 'frangipane', 'treacle tarts', 'white dough']);
    expect(body[3]).toMatchObject({
      number: 1,
      sort: 'dough',
      totalMg: 41_450_000,
      flourMg: 25_000_000,
      putAway: null,
      signed: { name: 'Lee Dehl', person: b.lead.caller.person, meaning: 'This version is to be baked by from now on' },
    });
    const treacle = String(body[2].formula);
    await signs.record('formula-put-away', { formula: treacle }, { at: at('03:00') });
    expect((await look('/formulas').expect(200)).body[2]).toMatchObject({ name: 'treacle tarts', putAway: '2026-11-25T03:00:00.000Z' });
    expect((await look(`/formulas/${treacle}`).expect(200)).body).toMatchObject({
      putAway: '2026-11-25T03:00:00.000Z',
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
    const theirs = await other.signedOn('Ola Ther', ['runs-it']);
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
      mostCelsius: 15.8,
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

describe('a draft of a formula', () => {
  const lead = () => b.lead.caller;
  const owner = () => b.owner.caller;
  const newDraft = async (of: object = {}): Promise<{ id: string; path: string; body: Record<string, never> & { content: never } }> => {
    const id = uuidv7(t.clock.now());
    const { body } = await lead()
      .post('/formulas/drafts', { id, ...of })
      .expect(200);
    return { id, path: `/formulas/drafts/${id}`, body };
  };
  interface Text {
    name: string;
    sort: string;
    content: Record<string, unknown> & {
      lines: { material: string | null; name: string; mg: number | null; flour: boolean; madeBy: string | null }[];
    };
  }
  const text = (body: { content: unknown }): Text => structuredClone(body.content) as Text; // the text of a whole version
  const less = (body: { content: unknown }, grams: number, line = 1): Text => {
    const changed = text(body);
    changed.content.lines = changed.content.lines.map((l, i) => (i === line ? { ...l, mg: grams * 1000 } : l));
    return changed;
  };

  it('from nothing is saved half made: what it lacks is listed, not refused', async () => {
    const { path, body } = await newDraft({ name: 'Rye sour', sort: 'starter' });
    expect(body).toMatchObject({ revision: 1, ready: false, nextNumber: 1, against: null, figures: { totalMg: 0, percents: [] } });
    const lines = [
      { material: null, name: 'Rye, whatever came', mg: 1_090_000, flour: true, madeBy: null },
      { material: b.material('water'), name: 'Water', mg: null, flour: false, madeBy: null },
    ];
    const saved = await save(t, lead(), path, { name: 'Rye sour', sort: 'starter', content: { lines } }, '"1"').expect(200);
    expect(saved.headers['etag']).toBe('"2"');
    expect(saved.body.problems.map((p: { field: string }) => p.field)).toEqual(
      expect.arrayContaining(['content.lines.0.material', 'content.lines.1.mg', 'content.steps', 'content.makes']),
    );
    expect(saved.body).toMatchObject({
      figures: { totalMg: 1_090_000, flourMg: 1_090_000, percents: [100, 0] },
      allergens: { contains: [], notKnown: ['Rye, whatever came'] },
    });
    const { body: refused } = await lead().get(`${path}/to-sign`).expect(422);
    expect(refused).toMatchObject({ type: expect.stringMatching(/draft-not-ready$/), field: expect.any(String) });
  });

  it('from the version in force shows what it changes, and becomes the next version when it is signed', async () => {
    const { path, body } = await newDraft({ formula: white });
    expect(body).toMatchObject({
      ready: true,
      problems: [],
      nextNumber: 2,
      against: { number: 1, differences: [] },
      figures: { percents: [100, 60, 1.8, 2, 2] },
      allergens: { contains: ['wheat'] },
    });
    const { body: saved } = await save(t, owner(), path, less(body, 15_500), '"1"').expect(200);
    expect(saved.against.differences).toEqual([
      { path: ['content', 'lines', b.material('water'), 'mg'], sort: 'changed', before: 15_000_000, after: 15_500_000 },
    ]);
    const { body: toSign } = await lead().get(`${path}/to-sign`).expect(200);
    expect(toSign).toMatchObject({
      kind: 'formula-baked-by-from',
      revision: 2,
      meaning: 'This version is to be baked by from now on',
      payload: { formula: white, number: 2 },
    });
    await signs.sign(toSign.kind, toSign.payload, { words: { note: 'wetter, as the new flour takes it' } });
    await putAway(t, lead(), path, '"2"').expect(204);
    const { body: shown } = await look(`/formulas/${white}`).expect(200);
    expect(shown.versions).toMatchObject([
      { number: 2, note: 'wetter, as the new flour takes it', signed: { name: 'Lee Dehl' } },
      { number: 1 },
    ]);
    expect(shown).toMatchObject({ asWritten: { lines: [{}, { mg: 15_500_000, percent: 62 }, {}, {}, {}] } });
    expect((await look(`/formulas/${white}?number=1`).expect(200)).body).toMatchObject({
      shown: { number: 1, inForce: false },
      asWritten: { lines: [{}, { mg: 15_000_000 }, {}, {}, {}] },
    });
    expect((await lead().get('/formulas/drafts').expect(200)).body.map((d: { id: string }) => d.id)).not.toContain(body['id']);
    expect((await lead().get('/formulas/drafts?away=yes').expect(200)).body.map((d: { id: string }) => d.id)).toContain(body['id']);
  });

  it('tells the second of two people what the first one changed, and loses neither text', async () => {
    const { path, body } = await newDraft({ formula: tartlets });
    const theirs = less(body, 4000, 1);
    const mine = { ...less(body, 1000, 2), name: 'almond tartlets, small' };
    await save(t, owner(), path, theirs, '"1"').expect(200);
    const { body: told, headers } = await save(t, lead(), path, mine, '"1"').expect(412);
    expect(headers['content-type']).toContain('application/problem+json');
    expect(told).toMatchObject({
      type: expect.stringMatching(/draft-changed$/),
      status: 412,
      title: 'Somebody else saved this draft meanwhile',
      conflict: {
        revision: 2,
        by: { name: 'Oona Ware' },
        away: false,
        base: body['content'],
        theirs,
        mine,
        bothChanged: [],
        theyChanged: [{ path: ['content', 'lines', b.material('frangipane'), 'mg'], before: 4_150_000, after: 4_000_000 }],
        iChanged: [{ path: ['name'] }, { path: ['content', 'lines', b.material('jam'), 'mg'], before: 960_000, after: 1_000_000 }],
      },
    });
    expect((await lead().get(path).expect(200)).body).toMatchObject({ revision: 2, content: theirs, by: { name: 'Oona Ware' } });
    const { body: both } = await save(
      t,
      lead(),
      path,
      { ...mine, content: { ...theirs.content, lines: theirs.content.lines.map((l, i) => (i === 2 ? { ...l, mg: 1_000_000 } : l)) } },
      '"2"',
    ).expect(200);
    expect(both).toMatchObject({ revision: 3, against: { differences: [{}, {}, {}] } });
    const { body: again } = await save(t, owner(), path, less(body, 3000, 1), '"2"').expect(412);
    expect(again.conflict).toMatchObject({ revision: 3, base: theirs, bothChanged: [] });
    expect((await save(t, owner(), path, less(body, 3000, 2), '"1"').expect(412)).body.conflict.bothChanged).toEqual([
      ['content', 'lines', b.material('jam'), 'mg'],
    ]);
  });

  it('a save whose reply was lost is no conflict with itself; of two at once one wins and the other is told', async () => {
    const { path, body } = await newDraft({ formula: white, name: 'white, tried' });
    const one = less(body, 14_000);
    await save(t, lead(), path, one, '"1"').expect(200);
    expect((await save(t, lead(), path, one, '"1"').expect(200)).body.revision).toBe(2);
    const answers = await Promise.all([14_100, 14_200, 14_300, 14_400].map((grams) => save(t, lead(), path, less(body, grams), '"2"')));
    expect(answers.map((a) => a.status).sort()).toEqual([200, 412, 412, 412]);
    expect((await lead().get(path).expect(200)).body.revision).toBe(3);
  });

  it('put away while somebody writes on it: they are told, and saving again takes it up', async () => {
    const { path, body } = await newDraft({ formula: white });
    await putAway(t, lead(), path, '"1"').expect(204);
    await putAway(t, lead(), path, '"1"').expect(204);
    const { body: told } = await save(t, owner(), path, less(body, 14_000), '"1"').expect(412);
    expect(told.conflict).toMatchObject({ revision: 2, away: true, by: { name: 'Lee Dehl' }, theyChanged: [] });
    expect((await save(t, owner(), path, less(body, 14_000), '"2"').expect(200)).body).toMatchObject({ revision: 3, away: false });
    expect((await putAway(t, lead(), path, '"2"').expect(412)).body.conflict).toMatchObject({ revision: 3 });
  });

  it('asks which revision it is made from, and keeps what no database can hold out', async () => {
    const { path, body } = await newDraft({ formula: white });
    for (const header of [null, '*']) expect((await save(t, lead(), path, text(body), header).expect(428)).body.field).toBe('If-Match');
    expect((await save(t, lead(), path, less(body, 1), 'W/"1"').expect(412)).body.conflict).toMatchObject({ base: null, revision: 1 });
    await save(t, lead(), path, { name: 'a\u0000' }, '"1"').expect(400);
    await save(t, lead(), path, { name: '\ud83e' }, '"1"').expect(400);
    await save(t, lead(), path, `{"content":${'['.repeat(200_000)}${']'.repeat(200_000)}}`, '"1"').expect(400);
    await save(t, lead(), path, { name: 'x'.repeat(2_000_000) }, '"1"').expect(413);
    await save(t, lead(), path, [] as object, '"1"').expect(400);
    expect(
      (await save(t, lead(), path, { name: '🥐 \u202eעברית', content: { lines: [1, null, 'x'] } }, '"1"').expect(200)).body,
    ).toMatchObject({ revision: 2, name: '🥐 \u202eעברית' });
    await lead().get('/formulas/drafts/00000000-0000-4000-8000-000000000000').expect(404);
  });

  it('twice under one id is one draft; others of the same formula are shown; an id of a plan’s draft is another thing', async () => {
    const { id } = await newDraft({ formula: white });
    const { body } = await owner().post('/formulas/drafts', { id, formula: tartlets }).expect(200);
    expect(body).toMatchObject({ id, subject: white, madeBy: { name: 'Lee Dehl' } });
    expect(body.others.length).toBeGreaterThan(0);
    expect((await lead().post('/plans/drafts', { id }).expect(409)).body.type).toMatch(/id-reused$/);
    await lead()
      .post('/formulas/drafts', { id: uuidv7(t.clock.now()), formula: id })
      .expect(422);
  });

  it('is for those who manage formulas, with their PIN, in their own house', async () => {
    const { path, body } = await newDraft({ formula: white });
    const other = await House.found(t);
    const theirs = await other.signedOn('Ola Ther', ['runs-it']);
    expect((await theirs.get('/formulas/drafts').expect(200)).body).toEqual([]);
    await theirs.get(path).expect(404);
    await save(t, theirs, path, text(body), '"1"').expect(404);
    await putAway(t, theirs, path, '"1"').expect(404);
    expect((await b.baker.caller.get('/formulas/drafts').expect(403)).body.type).toMatch(/not-permitted$/);
    await save(t, b.baker.caller, path, text(body), '"1"').expect(403);
    await b.baker.caller.get(`${path}/to-sign`).expect(403);
    const both = await b.house.join('Tap Only', ['runs-it']);
    expect((await (await b.tablet.tap(both.person)).get(path).expect(403)).body.type).toMatch(/pin-needed$/);
  });
});
