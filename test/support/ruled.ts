import type { PayloadFor, ReworkRule } from '@bakehouse/records';
import { at, g, type Bakehouse } from './bakehouse.js';
import { formulasOf } from './bakehouse-data.js';
import { Hand } from './hand.js';

const day = '2026-11-25';

/** The white dough's next version, which says what may be put back into it: white dough, at most a tenth of the flour, unless it says otherwise. The version. */
export async function ruledWhite(b: Bakehouse, of: Partial<ReworkRule> = {}, number = 2): Promise<string> {
  const [, type, name, content] = formulasOf(b.ids).find(([key]) => key === 'white') ?? [];
  if (type === undefined || name === undefined || content === undefined) throw new Error('no white dough');
  const sources = [{ material: b.material('whiteDough'), name: 'White dough' }];
  const rework = { sources, maxFlourBp: 1_000, maxAgeHours: null, maxTimes: null, ...of };
  const approved: PayloadFor<'formula-approved'> = {
    formula: b.formulaId('white'),
    number,
    name,
    type,
    content: { ...content, rework },
  };
  return (
    await new Hand(b.house, b.lead.caller, null).record('formula-approved', approved, {
      at: '2026-11-02T08:00:00+00:00',
      words: { note: 'tried' },
    })
  ).id;
}

/** A dough of flour alone, kept to be put back. */
export async function keptDough(b: Bakehouse, time = at('01:00'), version?: string): Promise<string> {
  const make = await b.begun('white', time, version === undefined ? {} : { formulaVersion: version });
  await b.baker.record('weighed-in', { make, lines: [b.into('flour', '2000')] }, { at: time });
  return make;
}

export const putBack = (b: Bakehouse, lot: string, grams: string | null): PayloadFor<'weighed-in'>['lines'][number] => ({
  ...b.into('whiteDough', grams ?? '0', lot),
  ...(grams === null ? { quantity: null } : {}),
  type: 'rework',
});

/** Twelve bloomers of a dough of so much flour with so much put back, baked and read; the entries that may be corrected. */
export async function bloomersOf(
  b: Bakehouse,
  version: string,
  of: { readonly flour: string; readonly back: string; readonly from: string },
) {
  const make = await b.begun('white', at('02:30'), { formulaVersion: version });
  const lot = await b.delivered('flour', at('01:05'));
  const { id: flour } = await b.baker.record('weighed-in', { make, lines: [b.into('flour', of.flour, lot)] }, { at: at('02:31') });
  const { id: back } = await b.baker.record('weighed-in', { make, lines: [putBack(b, of.from, of.back)] }, { at: at('02:32') });
  const run = b.newId();
  const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
  await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
  const into = {
    oven: b.place('deckOven'),
    deck: null,
    plan: b.plan,
    bakeDay: day,
    setting: null,
    minutes: 28,
    lines: [{ run, pieces: 12 }],
  };
  const { id: load } = await b.baker.record('load-in', into, { at: at('04:00') });
  await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '97'), { at: at('04:40') });
  const counted = { run, loads: [load], pieces: 12, rejects: 0, code: `B-${run.slice(-6)}`, bakedOn: day, bestBefore: null, useBy: null };
  const { id: batch } = await b.baker.record('batch-counted-out', counted, { at: at('05:00') });
  return { make, lot, run, batch, flour, back };
}

/** A batch with more put back into its dough than may be: 1,400 g on 10,000 g of flour, where a tenth may be, by that version of the white dough. */
export async function againstRule(b: Bakehouse, number: number): Promise<{ readonly begins: string; readonly batch: string }> {
  const { make, batch } = await bloomersOf(b, await ruledWhite(b, {}, number), { flour: '10000', back: '1400', from: await keptDough(b) });
  return { begins: make, batch };
}
