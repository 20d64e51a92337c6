import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { counterView } from '@bakehouse/contracts';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { formulasOf, type FormulaKey, type Material } from '../support/bakehouse-data.js';
import { Hand } from '../support/hand.js';

/** Of every make only the flour was weighed in: what else its recipe says may be in it. */
describe('a product at the counter whose lines were not all recorded', () => {
  let t: TestApp;
  let b: Bakehouse;
  let flour: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T12:00:00Z') });
    b = await Bakehouse.found(t);
    flour = await b.delivered('flour', at('00:01'));
  });
  afterAll(() => t.close());

  async function made(key: FormulaKey, product: Material, time: string, formulaVersion = b.formula(key)): Promise<void> {
    const make = await b.begun(key, at(time), { formulaVersion });
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '1000', flour)] }, { at: at(time) });
    const run = b.newId();
    const runs = [{ run, product: b.material(product), heads: null, pieces: 5, scaling: g('75') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at(time) });
    const counted = { run, loads: [], pieces: 5, rejects: 0, code: `C-${time}`, bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    await b.baker.record('batch-counted-out', counted, { at: at('08:00') });
  }
  const answersOf = async (product: Material) => {
    const { body } = await request(t.server).get('/api/v1/counter').expect(200);
    const found = counterView.parse(body).products.find((p) => p.product === b.material(product));
    if (!found) throw new Error(`nothing is answered of ${product}`);
    return found;
  };
  /** A second version of the tartlets, of flour alone. */
  async function withoutAlmonds(): Promise<string> {
    const [, type, name, content] = formulasOf(b.ids).find(([key]) => key === 'tartlets') ?? [];
    const [dough] = formulasOf(b.ids).filter(([key]) => key === 'white');
    if (!type || !name || !content || !dough) throw new Error('no tartlets');
    const payload = { formula: b.formulaId('tartlets'), number: 2, name, type, content: { ...content, lines: dough[3].lines } };
    return (await new Hand(b.house, b.lead.caller, null).record('formula-approved', payload, { at: at('07:00') })).id;
  }

  it('is never “not” where its formula does not name it', async () => {
    await made('white', 'tart', '02:00');
    const { answers, checkedSince } = await answersOf('tart');
    expect(answers['wheat']).toBe('contains');
    expect(Object.values(answers)).not.toContain('not');
    expect(answers['almond']).toBe('unknown');
    expect(checkedSince).toBeNull();
  });

  it('goes by the version that each batch was made by, however many are on sale and whichever came last', async () => {
    await made('tartlets', 'tartlet', '03:00');
    expect((await answersOf('tartlet')).answers['almond']).toBe('may-contain');
    const second = await withoutAlmonds();
    expect((await answersOf('tartlet')).answers['almond']).toBe('may-contain');
    await made('tartlets', 'tartlet', '07:30', second);
    expect((await answersOf('tartlet')).answers['almond']).toBe('may-contain');
  });
});
