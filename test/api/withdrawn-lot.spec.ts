import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

let t: TestApp;
let b: Bakehouse;
beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock('2026-11-25T06:00:00Z') });
  b = await Bakehouse.found(t);
});
afterAll(() => t.close());

/** A delivery of one lot with its code; the id of the record beside the lot's. */
async function delivered(code: string, lot = b.newId()): Promise<{ lot: string; delivery: string }> {
  const payload = {
    supplier: null,
    noteNumber: 'DN 7',
    photo: null,
    unattended: false,
    lines: [b.line('flour', lot, { code }), b.line('yeast', b.newId(), { code: `${code}-Y`, quantity: { figure: '1', unit: 'kg' } })],
  };
  return { lot, delivery: (await b.baker.record('delivery-received', payload, { at: at('01:00') })).id };
}

async function baked(lot: string, code: string): Promise<{ make: string; run: string; batch: string }> {
  const make = await b.begun('white', at('02:30'));
  await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600', lot)] }, { at: at('02:31') });
  const run = b.newId();
  const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
  await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
  const counted = { run, loads: [], pieces: 12, rejects: 0, code, bakedOn: '2026-11-25', bestBefore: null, useBy: null };
  return { make, run, batch: (await b.baker.record('batch-counted-out', counted, { at: at('05:00') })).id };
}

const withdraw = (corrects: string) => b.baker.record('entry-withdrawn', {}, { corrects, words: { reason: 'typed twice' } });
const held = async () => {
  const { body } = await b.lead.caller.get(`/sites/${b.site}/open`).expect(200);
  const list: { lot: string; name: string; concerns: { type: string; from: string; fromName: string }[] }[] = body.held;
  return list;
};
const heldLots = async () => (await held()).map((h) => h.lot);
const found = async (code: string) => {
  const { body } = await b.lead.caller.get(`/lots?words=${code}`).expect(200);
  return body.map((l: { id: string; name: string; type: string }) => [l.id, l.name, l.type]);
};
const traced = async (lot: string, direction: 'forward' | 'backward') => {
  const { body } = await b.lead.caller.get(`/lots/${lot}/trace?direction=${direction}`).expect(200);
  return body.lots.map((l: { id: string }) => l.id);
};

describe('a delivery that was withdrawn after its lot was used', () => {
  let of: { lot: string; delivery: string };
  let bread: { make: string; run: string; batch: string };
  beforeAll(async () => {
    of = await delivered('W-100');
    bread = await baked(of.lot, 'WB-1');
    expect(await heldLots()).toEqual([]);
    await withdraw(of.delivery);
  });

  it('leaves the lot where it can be found, by its code and name, and says that its record was withdrawn', async () => {
    expect(await found('W-100')).toEqual([[of.lot, 'strong white flour', 'withdrawn']]);
  });

  it('leaves the lot in every trace, both ways', async () => {
    expect(await traced(bread.batch, 'backward')).toContain(of.lot);
    expect(await traced(of.lot, 'forward')).toEqual(expect.arrayContaining([bread.make, bread.batch]));
  });

  it('speaks against everything that came of it, until somebody signs', async () => {
    expect((await heldLots()).sort()).toEqual(expect.arrayContaining([of.lot, bread.batch].sort()));
    expect((await held()).find((h) => h.lot === bread.batch)?.concerns).toMatchObject([
      { type: 'withdrawn', from: of.lot, fromName: 'strong white flour' },
    ]);
    expect(await b.baker.refused('released-by-rule', { batch: bread.batch })).toMatchObject({
      problem: 'not-releasable',
      acceptable: expect.stringContaining('the record of a lot in it was withdrawn'),
    });
    const rows = await b.night();
    expect(rows.lot.find((l) => l.id === of.lot)).toMatchObject({ type: 'withdrawn' });
  });

  it('can be recalled', async () => {
    const recall = b.newId();
    const opening = { id: recall, suspect: [of.lot], hazard: 'physical', hazardName: 'glass', practice: true };
    await b.lead.caller.post('/recalls', opening).expect(200);
    const { body } = await b.lead.caller.get(`/recalls/${recall}`).expect(200);
    expect(body.trace.lots.map((l: { id: string }) => l.id)).toEqual(expect.arrayContaining([of.lot, bread.batch]));
  });

  it('is accepted by a signed decision, for what was made of it too', async () => {
    const accepted = { lot: of.lot, covers: 'what-came-of-it' } as const;
    await b.lead.record('withdrawn-lot-accepted', accepted, { words: { why: 'it is what the driver brought; the note follows' } });
    expect(await heldLots()).toEqual([]);
    expect((await b.baker.refused('released-by-rule', { batch: bread.batch })).acceptable).toBe(
      'nothing open; there is: not taken: core temperature',
    );
  });
});

describe('whatever comes first', () => {
  it('the withdrawal or the use: the lot and what came of it stand the same', async () => {
    const first = await delivered('W-200');
    await withdraw(first.delivery);
    expect(await heldLots()).toEqual([]);
    expect((await b.night()).inUse.some((u) => u.lot === first.lot)).toBe(false);
    const late = await baked(first.lot, 'WB-2');
    expect(await heldLots()).toEqual(expect.arrayContaining([first.lot, late.batch]));
  });

  it('a record put back ends it', async () => {
    const of = await delivered('W-300');
    const bread = await baked(of.lot, 'WB-3');
    await withdraw(of.delivery);
    expect(await heldLots()).toContain(bread.batch);
    const again = {
      supplier: null,
      noteNumber: 'DN 7',
      photo: null,
      unattended: false,
      lines: [b.line('flour', of.lot, { code: 'W-300' })],
    };
    await b.baker.record('delivery-received', again, { at: at('01:00'), corrects: of.delivery, words: { reason: 'it came after all' } });
    expect(await heldLots()).not.toContain(bread.batch);
    expect(await found('W-300')).toEqual([[of.lot, 'strong white flour', 'received']]);
  });
});

describe('a delivery that was corrected after its lots were used', () => {
  it('and has no longer one of its lines: that lot is withdrawn, the others are not', async () => {
    const of = await delivered('W-400');
    const bread = await baked(of.lot, 'WB-4');
    const lines = [b.line('yeast', b.newId(), { quantity: { figure: '1', unit: 'kg' } })];
    const without = { supplier: null, noteNumber: 'DN 7', photo: null, unattended: false, lines };
    await b.baker.record('delivery-received', without, { at: at('01:00'), corrects: of.delivery, words: { reason: 'no flour came' } });
    expect(await found('W-400')).toContainEqual([of.lot, 'strong white flour', 'withdrawn']);
    expect(await heldLots()).toEqual(expect.arrayContaining([of.lot, bread.batch]));
    const { body } = await b.lead.caller.get(`/sites/${b.site}/deliveries`).expect(200);
    const shown = body.find((d: { id: string }) => d.id === of.delivery);
    expect(shown.lines.map((l: { lot: string }) => l.lot)).toEqual([lines[0]?.lot]);
  });

  it('cannot turn a lot into another material: what came gets a lot of its own', async () => {
    const of = await delivered('W-500');
    const bread = await baked(of.lot, 'WB-5');
    const payload = (lot: string) => ({
      supplier: null,
      noteNumber: 'DN 7',
      photo: null,
      unattended: false,
      lines: [b.line('yeast', lot, { code: 'W-500' })],
    });
    const correcting = { at: at('01:00'), corrects: of.delivery, words: { reason: 'it was yeast' } };
    expect(await b.baker.refused('delivery-received', payload(of.lot), correcting)).toMatchObject({
      problem: 'unacceptable-value',
      field: 'payload.lines.0.lot',
      acceptable: expect.stringContaining('a new lot'),
    });
    await b.baker.record('delivery-received', payload(b.newId()), correcting);
    expect(await heldLots()).toEqual(expect.arrayContaining([of.lot, bread.batch]));
  });
});

describe('a lot that nobody used', () => {
  it('is on no list once its record was withdrawn', async () => {
    const of = await delivered('W-600');
    await withdraw(of.delivery);
    expect(await heldLots()).not.toContain(of.lot);
    expect(await found('W-600')).toEqual([]);
  });
});
