import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { afterCommitOf } from '../support/after-commit.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { archived, save } from '../support/drafts.js';
import { Hand } from '../support/hand.js';
import { House } from '../support/people.js';

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
    type: string;
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
    const { path, body } = await newDraft({ name: 'Rye sour', type: 'starter' });
    expect(body).toMatchObject({ revision: 1, ready: false, nextNumber: 1, against: null, figures: { totalMg: 0, percents: [] } });
    const lines = [
      { material: null, name: 'Rye, whatever came', mg: 1_090_000, flour: true, madeBy: null },
      { material: b.material('water'), name: 'Water', mg: null, flour: false, madeBy: null },
    ];
    const saved = await save(t, lead(), path, { name: 'Rye sour', type: 'starter', content: { lines } }, '"1"').expect(200);
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
      { path: ['content', 'lines', b.material('water'), 'mg'], type: 'changed', before: 15_000_000, after: 15_500_000 },
    ]);
    const { body: toSign } = await lead().get(`${path}/to-sign`).expect(200);
    expect(toSign).toMatchObject({
      kind: 'formula-approved',
      revision: 2,
      meaning: 'I approve this version; it is in force from now on',
      payload: { formula: white, number: 2 },
    });
    await signs.record(toSign.kind, toSign.payload, { words: { note: 'wetter, as the new flour takes it' } });
    await archived(t, lead(), path, '"2"').expect(204);
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
    expect((await lead().get('/formulas/drafts?archived=yes').expect(200)).body.map((d: { id: string }) => d.id)).toContain(body['id']);
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
      title: 'Somebody else saved this draft in the meantime',
      conflict: {
        revision: 2,
        by: { name: 'Oona Ware' },
        archived: false,
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

  it('shows in a save’s reply what was saved, also where somebody else saved right after', async () => {
    const { path, body } = await newDraft({ formula: white, name: 'white, raced' });
    const [mine, theirs] = [less(body, 14_000), less(body, 13_000)];
    afterCommitOf('draft', () => save(t, owner(), path, theirs, '"2"').expect(200));
    const { body: shown, headers } = await save(t, lead(), path, mine, '"1"').expect(200);
    expect({ tag: headers['etag'], content: shown.content, by: shown.by.name }).toEqual({ tag: '"2"', content: mine, by: 'Lee Dehl' });
    expect((await lead().get(path).expect(200)).body).toMatchObject({ revision: 3, content: theirs, by: { name: 'Oona Ware' } });
  });

  it('archived while somebody writes on it: they are told, and saving again takes it up', async () => {
    const { path, body } = await newDraft({ formula: white });
    await archived(t, lead(), path, '"1"').expect(204);
    await archived(t, lead(), path, '"1"').expect(204);
    const { body: told } = await save(t, owner(), path, less(body, 14_000), '"1"').expect(412);
    expect(told.conflict).toMatchObject({ revision: 2, archived: true, by: { name: 'Lee Dehl' }, theyChanged: [] });
    expect((await save(t, owner(), path, less(body, 14_000), '"2"').expect(200)).body).toMatchObject({ revision: 3, archived: false });
    expect((await archived(t, lead(), path, '"2"').expect(412)).body.conflict).toMatchObject({ revision: 3 });
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
    const theirs = await other.signedOn('Ola Ther', ['manager']);
    expect((await theirs.get('/formulas/drafts').expect(200)).body).toEqual([]);
    await theirs.get(path).expect(404);
    await save(t, theirs, path, text(body), '"1"').expect(404);
    await archived(t, theirs, path, '"1"').expect(404);
    expect((await b.baker.caller.get('/formulas/drafts').expect(403)).body.type).toMatch(/not-permitted$/);
    await save(t, b.baker.caller, path, text(body), '"1"').expect(403);
    await b.baker.caller.get(`${path}/to-sign`).expect(403);
    const both = await b.house.join('Tap Only', ['manager']);
    expect((await (await b.tablet.tap(both.person)).get(path).expect(403)).body.type).toMatch(/pin-needed$/);
  });
});
