import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { archived, save } from '../support/drafts.js';
import { Hand } from '../support/hand.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';
import { looseningsOf } from '../support/loosened.js';
import { House, type Caller } from '../support/people.js';
import { queriesDuring } from '../support/queries-during.js';

let t: TestApp;
let b: Bakehouse;
let lead: Caller;
let series: string;
beforeAll(async () => {
  t = await startTestApp();
  b = await Bakehouse.found(t);
  lead = b.lead.caller;
  series = String((await lead.get('/plans').expect(200)).body.history[0].series);
});
afterAll(() => t.close());

const newDraft = async (of: object = {}) => {
  const id = uuidv7(t.clock.now());
  const { body } = await lead.post('/plans/drafts', { id, ...of }).expect(200);
  return { id, path: `/plans/drafts/${id}`, body };
};
interface Text {
  site: string | null;
  content: { name: string; points: Record<string, unknown>[] };
}
const changed = (body: { content: Text }, key: string, of: object): Text => ({
  ...body.content,
  content: { ...body.content.content, points: body.content.content.points.map((p) => (p['key'] === key ? { ...p, ...of } : p)) },
});

describe('plans', () => {
  it('in force at each site, with who signed, and the caution', async () => {
    const { body } = await b.baker.caller.get('/plans').expect(200);
    expect(body).toMatchObject({
      sites: [
        {
          site: b.site,
          name: 'Mill Lane',
          plan: {
            id: b.plan,
            number: 1,
            points: 7,
            signed: { name: 'Lee Dehl', meaning: 'I approve this plan; I have read each limit and what it rests on' },
          },
        },
      ],
      history: [{ id: b.plan, site: null }],
      caution: expect.stringContaining('your local food-safety authority’s rules come first'),
    });
    expect(body.sites[0].plan.content.points[1]).toMatchObject({ key: 'tin-core', class: 'ccp', limit: { min: '94', unit: 'degC' } });
    const { body: one } = await b.baker.caller.get(`/plans/${b.plan}`).expect(200);
    expect(one).toMatchObject({ id: b.plan, inForceAt: [b.site], caution: expect.any(String) });
  });

  it('are one house’s, for those who may look, by a fixed number of queries', async () => {
    const other = await House.found(t);
    const theirs = await other.signedOn('Ola Ther', ['food-safety-lead']);
    expect((await theirs.get('/plans').expect(200)).body).toMatchObject({ sites: [{ plan: null }], history: [] });
    await theirs.get(`/plans/${b.plan}`).expect(422);
    await b.baker.caller.get('/plans/x').expect(400);
    expect(await queriesDuring(() => b.baker.caller.get('/plans').expect(200))).toBeLessThan(8);
  });
});

const fieldsOf = (draft: { readonly problems: readonly { readonly field: string }[] }): string[] => draft.problems.map((p) => p.field);

describe('a draft of a plan', () => {
  it('from nothing lists what it lacks; a limit that makes no sense is named, never refused', async () => {
    const { path, body } = await newDraft({ name: 'Bread' });
    expect(body).toMatchObject({ name: 'Bread', ready: false, nextNumber: 1, against: null });
    expect(fieldsOf(body)).toEqual(['content.points', 'content.pastLife.opened', 'content.pastLife.madeHere']);
    const [point] = (await newDraft({ series })).body.content.content.points.slice(1);
    const points = [point, { ...point, limit: { type: 'range', min: '199', max: null, unit: 'degC' }, correctiveAction: '' }];
    const { body: saved } = await save(
      t,
      lead,
      path,
      { site: null, content: { name: 'Bread', scope: '', team: '', pastLife: { opened: 'warn', madeHere: 'hold' }, points } },
      '"1"',
    ).expect(200);
    const gone = Array.from({ length: 5 }, () => 'loosened'); // the control points of the plan in force that it does not have
    expect(fieldsOf(saved)).toEqual(['content.points.1.key', 'content.points.1.limit.min', ...gone]);
    await lead.get(`${path}/to-sign`).expect(422);
  });

  it('is approved by signing; the version before it stays readable', async () => {
    const { path, body } = await newDraft({ series, site: b.site });
    expect(body).toMatchObject({ ready: true, nextNumber: 2, against: { number: 1, differences: [{ path: ['site'] }] } });
    const { body: saved } = await save(
      t,
      lead,
      path,
      changed(body, 'bloomer-core', { limit: { type: 'range', min: '94', max: null, unit: 'degC' } }),
      '"1"',
    ).expect(200);
    expect(saved.against.differences).toMatchObject([
      { path: ['site'] },
      { path: ['content', 'points', 'bloomer-core', 'limit', 'min'], before: '93', after: '94' },
    ]);
    const { body: toSign } = await lead.get(`${path}/to-sign`).expect(200);
    expect(toSign).toMatchObject({
      kind: 'plan-approved',
      payload: { series, number: 2, site: b.site },
      meaning: expect.stringContaining('I approve this plan'),
      caution: expect.any(String),
    });
    const signed = await new Hand(b.house, lead, null).record(toSign.kind, toSign.payload, { at: at('03:30') });
    expect((await lead.get('/plans').expect(200)).body).toMatchObject({
      sites: [{ plan: { id: signed.id, number: 2 } }],
      history: [{ number: 2 }, { number: 1 }],
    });
    expect((await lead.get(`/plans/${b.plan}`).expect(200)).body).toMatchObject({ inForceAt: [], content: { points: expect.any(Array) } });
  });

  it('that lets through what the plan in force does not says so, and waits until each is given its reason and its basis', async () => {
    const { path, body } = await newDraft({ series, site: b.site });
    const loose = changed(body, 'tart-core', { limit: { type: 'range', min: '40', max: null, unit: 'degC' } });
    const { body: saved } = await save(t, lead, path, loose, '"1"').expect(200);
    const [was] = body.content.content.points.filter((p: { key: string }) => p.key === 'tart-core');
    expect(saved.loosened).toEqual([
      { point: 'tart-core', name: 'tart-core', changes: [{ what: 'limit', before: was.limit, after: { ...was.limit, min: '40' } }] },
    ]);
    expect(saved).toMatchObject({
      ready: false,
      problems: [{ field: 'loosened', problem: 'limit-loosened', acceptable: expect.stringContaining('→ 40 °C or more') }],
      warnings: [{ point: 'tart-core', text: expect.stringContaining('a competent person has to show') }],
    });
    await lead.get(`${path}/to-sign`).expect(422);
    const [said] = looseningsOf(['tart-core']);
    const { body: half } = await save(t, lead, path, { ...loose, loosened: [{ ...said, evidence: '' }] }, '"2"').expect(200);
    expect(fieldsOf(half)).toEqual(['loosened.0.evidence']);
    expect(half.loosened).toHaveLength(1);
    const { body: ready } = await save(t, lead, path, { ...loose, loosened: [said] }, '"3"').expect(200);
    expect(ready).toMatchObject({ ready: true, loosened: [{ point: 'tart-core' }] });
    const { body: toSign } = await lead.get(`${path}/to-sign`).expect(200);
    const signs = new Hand(b.house, lead, null);
    const without = { ...toSign.payload, loosened: [] };
    const refused = await lead.post('/organisation/entries', [await lead.signed(b.house.entry({ kind: toSign.kind, payload: without }))]);
    expect(refused.body).toMatchObject([
      { as: 'refused', problem: 'limit-loosened', acceptable: expect.stringMatching(/for tart-core: .* → 40 °C or more$/) },
    ]);
    const { id } = await signs.record(toSign.kind, toSign.payload, { at: at('03:40') });
    expect((await lead.get(`/plans/${id}`).expect(200)).body).toMatchObject({ loosened: [{ ...said, changes: [{ what: 'limit' }] }] });
    const { body: seen } = await b.owner.caller.get(`/sites/${b.site}/inspection?from=2026-11-25&until=2026-11-25`).expect(200);
    const plan = seen.plans.find((p: { id: string }) => p.id === id);
    expect(plan.loosened).toMatchObject([said]);
    expect(plan.points.find((p: { key: string }) => p.key === 'tart-core').validated).toEqual({
      by: said?.validatedBy,
      on: said?.validatedOn,
      evidence: said?.evidence,
    });
    expect(plan.points.find((p: { key: string }) => p.key === 'tin-core').validated).toBeNull();
    // What had to be looked at before it was signed stays with it, on the page and the pack, with who signed.
    expect(plan).toMatchObject({ signedBy: expect.any(String), warnings: [{ point: 'tart-core', text: saved.warnings[0].text }] });
    const { bytes } = await fileFrom(lead, `/sites/${b.site}/inspection/pack.pdf?from=2026-11-25&until=2026-11-25`);
    const pack = (await pagesOf(bytes)).map((p) => p.text.replace(/\s+/g, ' '));
    expect(pack.join(' ')).toContain(`Low limits, signed all the same by ${plan.signedBy}:`);
    expect(pack.join(' ')).toContain('40 °C without a time held is below what is usual');
    expect(pack[0]).toContain('Limits below the usual');
    const { body: next } = await newDraft({ series });
    expect(next.content.content.points.find((p: { key: string }) => p.key === 'tart-core').validated).toEqual({
      by: said?.validatedBy,
      on: said?.validatedOn,
    }); // the next version goes on from what was validated
  });

  it('of two people the second is told, with both limits', async () => {
    const { path, body } = await newDraft({ series });
    const other = await b.house.signedOn('Second Lead', ['food-safety-lead']);
    const min = (figure: string) => changed(body, 'bap-core', { limit: { type: 'range', min: figure, max: null, unit: 'degC' } });
    await save(t, other, path, min('93'), '"1"').expect(200);
    const { body: told } = await save(t, lead, path, min('95'), '"1"').expect(412);
    expect(told.conflict).toMatchObject({
      bothChanged: [['content', 'points', 'bap-core', 'limit', 'min']],
      by: { name: 'Second Lead' },
      mine: min('95'),
      theirs: min('93'),
    });
    await archived(t, lead, path, '"2"').expect(204);
  });

  it('is for the food-safety lead, in their own house', async () => {
    const { path, body } = await newDraft({ series });
    await b.owner.caller.get('/plans/drafts').expect(403);
    await save(t, b.owner.caller, path, body.content, '"1"').expect(403);
    await b.baker.caller.post('/plans/drafts', { id: uuidv7(t.clock.now()) }).expect(403);
    const theirs = await (await House.found(t)).signedOn('Ola Ther', ['food-safety-lead']);
    await theirs.get(path).expect(404);
    await lead.post('/plans/drafts', { id: uuidv7(t.clock.now()), series: b.plan }).expect(422);
    await lead.get(path.replace('/plans/', '/formulas/')).expect(404);
  });
});
