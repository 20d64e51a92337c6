import { at, type Bakehouse, g } from './bakehouse.js';

/** What is recorded of some bread: a lot of flour, the dough, its run, a load of it, and the batch. */
interface Bread {
  readonly flour: string;
  readonly make: string;
  readonly run: string;
  readonly load: string;
  readonly batch: string;
}
type Action = (x: Bread, n: number) => Promise<unknown>;

/** Places are put on hold, food is told to have been at them, and is decided on. */
export function placeActions(b: () => Bakehouse): Readonly<Record<string, Action>> {
  const placeHolds: string[] = [];
  return {
    'a place is put on hold, and may be used again or not': async (_x, n) => {
      const place = [b().place('fridge'), b().place('mixer'), b().place('deckOven')][n % 3] ?? '';
      const from = ['2026-11-25T02:40:00Z', '2026-11-25T03:50:00Z', '2026-11-25T06:00:00Z'][Math.floor(n / 3) % 3] ?? '';
      const until = n % 2 === 0 ? null : '2026-11-25T06:30:00Z';
      const words = { because: 'a light broke' };
      const { id: hold } = await b().lead.record('place-put-on-hold', { place, from, until }, { at: at('09:00'), words });
      if (n > 6) await b().lead.record('place-hold-ended', { hold }, { at: at('10:00'), words: { why: 'cleaned' } });
      placeHolds.push(hold);
    },
    'something is carried into a fridge, or out of it': (x, n) => {
      const [to, from] = n % 3 === 0 ? [b().place('bench'), b().place('fridge')] : [b().place('fridge'), null];
      const quantity = n % 2 === 0 ? null : g('10');
      const lines = [{ lot: n % 4 === 0 ? x.make : x.flour, from, quantity, how: 'estimated' as const }];
      return b().baker.record('lots-moved', { to, lines }, { at: at(['02:20', '04:05', '06:10'][n % 3] ?? '') });
    },
    'a load comes out, or stands in the fridge': (x, n) =>
      n % 2 === 0
        ? b().baker.record('load-stepped', { load: x.load, step: 'out', minutes: null }, { at: at(n > 4 ? '03:55' : '04:25') })
        : b().baker.record(
            'stage-passed',
            { subjects: [{ type: 'load', id: x.load }], place: b().place('fridge'), step: 'cool', way: n > 4 ? 'out' : 'in' },
            { at: at('06:05') },
          ),
    'food of a place on hold is accepted': async (x, n) => {
      const hold = placeHolds.at(-1);
      const payload = {
        hold: hold ?? '',
        lot: [x.flour, x.make, x.run, x.batch][n % 4] ?? '',
        covers: n % 2 === 0 ? 'what-came-of-it' : 'this-alone',
      } as const;
      if (hold !== undefined) await b().lead.record('food-at-place-accepted', payload, { at: at('10:30'), words: { why: 'sealed' } });
    },
  };
}
