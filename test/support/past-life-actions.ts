import type { LifeRule } from '@bakehouse/records';
import { at, type Bakehouse } from './bakehouse.js';
import { catalogue, formulasOf, pointsOf } from './bakehouse-data.js';
import { Hand } from './hand.js';
import { looseningsOf } from './loosened.js';

const since = '2026-11-02T08:00:00.000Z';

/** A plan that says this of all that is past its life is signed, as a series of its own. */
export async function planOfLives(b: Bakehouse, rule: LifeRule, since: string): Promise<void> {
  const content = { name: 'Lives', scope: 'all', team: 'lead', pastLife: { opened: rule, madeHere: rule }, points: pointsOf(b.ids) };
  const signs = new Hand(b.house, b.lead.caller, null);
  await signs.record(
    'plan-approved',
    { series: b.newId(), number: 1, site: null, content, loosened: looseningsOf(['past life: opened', 'past life: madeHere']) },
    { at: since },
  );
}

/** Such a plan, flour that keeps an hour once opened, and a white dough that keeps an hour: that formula's version. */
export async function heldPastLife(b: Bakehouse, rule: LifeRule = 'hold'): Promise<string> {
  await planOfLives(b, rule, since);
  await b.house.decide({
    kind: 'specification-accepted',
    at: since,
    payload: { ...catalogue.flour, lifeOpenedHours: 1, material: b.material('flour') },
  });
  const [white] = formulasOf(b.ids).filter(([key]) => key === 'white');
  if (!white) throw new Error('no white dough');
  const [key, type, name, dough] = white;
  const next = { formula: b.ids.formulas[key], number: 2, name, type, content: { ...dough, lifeHours: 1 } };
  const signs = new Hand(b.house, b.lead.caller, null);
  return (await signs.record('formula-approved', next, { at: since })).id;
}

interface Bread {
  readonly flour: string;
  readonly make: string;
}
type Action = (x: Bread, n: number, done: string[]) => Promise<unknown>;

/** What tells of a life, in time or late: a sack is opened or used up, and the dough came to its end. */
export function pastLifeActions(b: () => Bakehouse): Readonly<Record<string, Action>> {
  const noting = async (done: string[], recorded: Promise<{ readonly id: string }>): Promise<unknown> => done.push((await recorded).id);
  return {
    'the flour is opened, long before it is used or just then': (x, n, done) => {
      const payload = { station: b().place('mixer'), material: b().material('flour'), lot: x.flour, beside: true };
      return noting(done, b().baker.record('lot-opened', payload, { at: at(n % 2 === 0 ? '01:10' : '02:20') }));
    },
    'the opened flour is used up before the dough, or after it': (x, n, done) => {
      const payload = { station: b().place('mixer'), lot: x.flour, left: null };
      return noting(done, b().baker.record('lot-emptied', payload, { at: at(n % 2 === 0 ? '02:25' : '02:40') }));
    },
    'the dough is ended, past its life when it is divided or not': (x, n, done) => {
      const payload = { make: x.make, quantity: null, how: 'estimated' as const };
      return noting(done, b().baker.record('make-ended', payload, { at: at(n % 2 === 0 ? '02:29' : '02:45') }));
    },
  };
}

/** Of some bread whose flour was open too long: what was made of it is on hold, or only the flour that is still open. */
export function pastLifeExamples<B extends Bread & { readonly batch: string }>(b: () => Bakehouse, baked: () => Promise<B>) {
  const opened = async (n: number): Promise<B> => {
    const bread = await baked();
    await pastLifeActions(b)['the flour is opened, long before it is used or just then']?.(bread, n, []);
    return bread;
  };
  return {
    'used-past-life': () => opened(0).then(({ make, batch }) => ({ begins: make, batch })),
    'past-life': () => opened(1).then(({ flour }) => ({ begins: flour, batch: flour })),
  };
}
