import type { PayloadFor } from '@bakehouse/records';
import { at, g, type Bakehouse } from './bakehouse.js';

interface Bread {
  readonly flour: string;
  readonly make: string;
  readonly run: string;
  readonly load: string;
  readonly batch: string;
}
type Action = (x: Bread, n: number, done: string[]) => Promise<unknown>;

/** A lot is put on hold, more is divided than went in, goods are refused, something is reported and decided about or not, a case is opened. */
export function breadActions(b: () => Bakehouse): Readonly<Record<string, Action>> {
  const noting = async (done: string[], recorded: Promise<{ readonly id: string }>): Promise<unknown> => done.push((await recorded).id);
  const lot = (x: Bread, n: number): string => [x.flour, x.make, x.run, x.batch][n % 4] ?? '';
  const held = (on: string) =>
    b().lead.record('hold-placed', { lot: on, deviation: null }, { at: at('09:00'), words: { because: 'glass' } });
  return {
    'a lot is put on hold': (x, n) => held(lot(x, n)),
    'a hold is placed and lifted': async (x, n) => {
      const { id: hold } = await held(lot(x, n));
      await b().lead.record('hold-lifted', { hold }, { at: at('10:00'), words: { why: 'another jar' } });
    },
    'more is divided than went in': (x, _n, done) => {
      const runs = [{ run: b().newId(), product: b().material('tin'), heads: null, pieces: 2_000, scaling: g('910') }];
      return noting(
        done,
        b().baker.record('divided', { make: x.make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('08:00') }),
      );
    },
    'goods are refused': (x) =>
      b().lead.record('receipt-decided', { lot: x.flour, decision: 'refused' }, { at: at('09:10'), words: { condition: 'torn' } }),
    'a dough or a load is reported, and it is decided about or not': async (x, n) => {
      const [subjectType, subject] = n % 2 === 0 ? (['make', x.make] as const) : (['load', x.load] as const);
      const about = { subjectType, subject, class: 'ccp', holds: true } as const;
      const { id: deviation } = await b().lead.record('deviation-reported', about, { at: at('06:00'), words: { what: 'a smell' } });
      const covers = n % 3 === 0 ? ('what-came-of-it' as const) : ('this-alone' as const);
      const what: Omit<PayloadFor<'disposition-decided'>, 'deviation'> = {
        lot: null,
        disposition: n % 5 === 0 ? 'destroyed' : 'accepted-for-use',
        covers,
        concerns: [],
        quantity: null,
      };
      if (n % 4 > 0) await b().lead.record('disposition-decided', { deviation, ...what }, { at: at('10:10'), words: { note: 'tasted' } });
    },
    'a case is opened': (x) =>
      b()
        .lead.caller.post('/recalls', {
          id: b().newId(),
          suspect: [x.flour],
          hazard: 'chemical',
          hazardName: 'oil',
          practice: false,
          said: '',
        })
        .expect(200),
  };
}
