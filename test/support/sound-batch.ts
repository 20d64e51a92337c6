import { at, g, type Premises } from './premises.js';

const day = '2026-11-25';

/** In what some bread that is baked may differ from other. */
export interface Baked {
  readonly grams: string | null;
  readonly counted: number;
  readonly divided: number;
  readonly plan: string;
  readonly oven: string;
  readonly loadedAt: string;
}

/** A batch of this run that nothing is wrong with. */
export async function soundBatch(b: Premises, run: string): Promise<string> {
  const loadIn = {
    oven: b.place('deckOven'),
    deck: null,
    plan: b.plan,
    bakeDay: day,
    setting: null,
    minutes: 28,
    lines: [{ run, pieces: 12 }],
  };
  const load = (await b.baker.record('load-in', loadIn, { at: at('02:51') })).id;
  await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '95'), { at: at('03:21') });
  const counted = { run, loads: [load], pieces: 12, rejects: 0, code: run.slice(-6), bakedOn: day, bestBefore: '2026-11-28', useBy: null };
  return (await b.baker.record('batch-counted-out', counted, { at: at('03:26') })).id;
}

/** A hold on a place that a lot was counted at: it reaches that lot. */
export async function placeOnHold({ baker }: Premises, place: string, lot: string, from = '03:30'): Promise<string> {
  await baker.record('lot-counted', { lot, place, quantity: g('1') }, { at: at(from) });
  const held = { place, from: new Date(at(from)).toISOString(), until: null };
  return (await baker.record('place-put-on-hold', held, { at: at('03:38'), words: { because: 'moths' } })).id;
}
