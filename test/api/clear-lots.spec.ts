import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { EntryResult } from '@bakehouse/contracts';
import { outcomeOf, type PayloadFor } from '@bakehouse/records';
import { followedStandingOf } from '../../apps/api/src/modules/standing/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { Tenancy } from '../../apps/api/src/platform/database/index.js';
import { Books } from '../../apps/api/src/platform/ledger/index.js';
import { noteClear } from '../../apps/api/src/platform/ledger/clear-lots.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g } from '../support/bakehouse.js';

const now = '2026-12-02T08:00:00.000Z';
const links = 5;

/** A starter fed from itself, each time with a flour of its own, and an almond that nobody knows the lot of; all of it days ago. */
interface Chain {
  readonly flours: readonly string[];
  readonly makes: readonly string[];
  readonly weighings: readonly string[];
  readonly holds: string[];
  readonly deviations: string[];
}

type Action = (chain: Chain, n: number) => Promise<unknown>;

describe('what is noted about clear lots', () => {
  let t: TestApp;
  let b: Bakehouse;
  let probe: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    probe = await b.probeInUse();
  });
  afterAll(() => t.close());

  const pick = (list: readonly string[], n: number): string => list[n % Math.max(1, list.length)] ?? '';
  const inBook = <T>(work: Parameters<Tenancy['inOrganisation']>[1]): Promise<T> =>
    t.app.get(Tenancy, { strict: false }).inOrganisation(b.house.organisation, work) as Promise<T>;

  async function fed(): Promise<Chain> {
    const chain = { flours: [] as string[], makes: [] as string[], weighings: [] as string[], holds: [], deviations: [] };
    for (let i = 0; i < links; i += 1) {
      const hour = (minute: number): string => at(`0${i + 1}:${String(minute).padStart(2, '0')}`);
      const flour = await b.delivered('flour', hour(0));
      const make = await b.begun('white', hour(1));
      const before = chain.makes.at(-1);
      const lines = [b.into('flour', '500', flour), ...(before === undefined ? [] : [b.into('flour', '100', before)])];
      chain.weighings.push((await b.baker.record('weighed-in', { make, lines }, { at: hour(2) })).id);
      if (i === 1) await b.baker.record('reading-taken', b.reading('tin-core', 'make', make, '97', { instrument: probe }), { at: hour(3) });
      chain.flours.push(flour);
      chain.makes.push(make);
    }
    return chain;
  }

  const checked = (shown: string, time: string) => {
    const way = { way: 'ice', at: { pressurePascal: null, altitudeMetres: null }, tolerance: null } as const;
    return b.baker.record('instrument-checked', { instrument: probe, shown: celsius(shown), ...way }, { at: time });
  };

  const cameBack = (lot: string) => {
    const of = { lot, departure: null, customer: null, how: 'weighed' as const, disposition: 'on-hand' as const };
    return b.baker.record('goods-returned', { ...of, quantity: g('5000') }, { at: at('08:10') });
  };

  const lots = (c: Chain): string[] => [...c.flours, ...c.makes];
  const actions: Readonly<Record<string, Action>> = {
    'a lot is put on hold': async (c, n) => {
      const words = { because: 'glass' };
      c.holds.push((await b.lead.record('hold-placed', { lot: pick(lots(c), n), deviation: null }, { at: at('09:00'), words })).id);
    },
    'a hold is lifted': async (c) => {
      const hold = c.holds.pop();
      if (hold !== undefined) await b.lead.record('hold-lifted', { hold }, { at: at('10:00'), words: { why: 'another jar' } });
    },
    'goods are refused': (c, n) =>
      b.lead.record('receipt-decided', { lot: pick(c.flours, n), decision: 'refused' }, { at: at('09:10'), words: { condition: 'torn' } }),
    'a place is put on hold': async (_c, n) => {
      const from = `2026-11-25T0${(n % 5) + 1}:00:00Z`;
      const held = { place: n % 2 === 0 ? b.place('mixer') : b.place('fridge'), from, until: n % 3 === 0 ? null : '2026-11-25T06:00:00Z' };
      await b.lead.record('place-put-on-hold', held, { at: at('09:00'), words: { because: 'a light broke' } });
    },
    'a flour was in the fridge, as is told late': (c, n) =>
      n % 2 === 0
        ? b.baker.record('lot-counted', { lot: pick(c.flours, n), place: b.place('fridge'), quantity: g('10') }, { at: at('00:40') })
        : b.baker.record(
            'lots-moved',
            { to: b.place('fridge'), lines: [{ lot: pick(lots(c), n), from: null, quantity: null, how: 'estimated' }] },
            { at: at('03:30') },
          ),
    'a make was in the fridge, as is told late': (c, n) =>
      b.baker.record(
        'stage-passed',
        { subjects: [{ type: 'make', id: pick(c.makes, n) }], place: b.place('fridge'), step: 'rest', way: n % 2 === 0 ? 'in' : 'out' },
        { at: at('04:30') },
      ),
    'a deviation holds a make': async (c, n) => {
      const about = { subjectType: 'make', subject: pick(c.makes, n), class: 'ccp', holds: true } as const;
      c.deviations.push((await b.lead.record('deviation-reported', about, { at: at('09:20'), words: { what: 'a smell' } })).id);
    },
    'it is decided, for all that came of it or not': async (c, n) => {
      const deviation = c.deviations.pop();
      const covers = n % 2 === 0 ? ('what-came-of-it' as const) : ('this-alone' as const);
      const what: Omit<PayloadFor<'disposition-decided'>, 'deviation'> = {
        lot: null,
        disposition: 'accepted-for-use',
        covers,
        concerns: [],
        quantity: null,
      };
      if (deviation !== undefined)
        await b.lead.record('disposition-decided', { deviation, ...what }, { at: at('10:10'), words: { note: 'tasted' } });
    },
    'most of a flour is destroyed, or all that is left of it': async (c, n) => {
      const lot = pick(c.flours, n);
      const about = { subjectType: 'lot', subject: lot, class: 'ccp', holds: false } as const;
      const { id: deviation } = await b.lead.record('deviation-reported', about, { at: at('09:25'), words: { what: 'rain came in' } });
      const quantity = n % 2 === 0 ? null : g('24495');
      const what: Omit<PayloadFor<'disposition-decided'>, 'deviation'> = {
        lot,
        disposition: 'destroyed',
        covers: 'this-alone',
        concerns: [],
        quantity,
      };
      await b.lead.record('disposition-decided', { deviation, ...what }, { at: at('06:30'), words: { note: 'wet' } });
    },
    'something is weighed in late': (c, n) => {
      const line = b.into('flour', '10', pick(lots(c), n));
      return b.baker.record('weighed-in', { make: pick(c.makes, n + 1), lines: [line] }, { at: at('07:00') });
    },
    'a weighing is withdrawn': (c, n) =>
      b.baker.send([
        b.house.entry({
          kind: 'entry-withdrawn',
          payload: {},
          at: at('11:00'),
          corrects: pick(c.weighings, n),
          words: { why: 'wrong bowl' },
        }),
      ]),
    'a dough is divided into more than went in': (c, n) => {
      const runs = [{ run: b.newId(), product: b.material('tin'), heads: null, pieces: 2_000, scaling: g('910') }];
      return b.baker.record('divided', { make: pick(c.makes, n), quantity: null, runs, oldDough: null, scrap: null }, { at: at('08:00') });
    },
    'some of a flour comes back that was never sent': (c, n) => cameBack(pick(c.flours, n)),
    'a thermometer fails its check': () => checked('2.6', at('09:40')),
    'a thermometer is checked and is good': () => checked('0.1', at('09:50')),
    'a case is opened': (c, n) =>
      b.lead.caller
        .post('/recalls', { id: b.newId(), suspect: [pick(c.flours, n)], hazard: 'chemical', hazardName: 'oil', practice: false, said: '' })
        .expect(200),
  };

  /** How every lot of the chain stands, as it can be compared. */
  async function standings(chain: Chain): Promise<unknown> {
    const books = await t.app.get(Books, { strict: false }).all(b.house.organisation);
    return inBook(async (client) => {
      const { standings: found } = await followedStandingOf(client, books, lots(chain), now);
      return [...found].map(([lot, s]) => [lot, s.concerns.map((c) => JSON.stringify(c)).sort()]).sort();
    });
  }
  const note = (chain: Chain): Promise<number> => inBook((client) => noteClear(client, b.house.organisation, lots(chain), new Date(now)));
  const noted = (): Promise<number> =>
    inBook(async (client) => (await client.query('SELECT 1 FROM clear_lot WHERE organisation = $1', [b.house.organisation])).rowCount ?? 0);
  const forget = (): Promise<unknown> =>
    inBook((client) => client.query('DELETE FROM clear_lot WHERE organisation = $1', [b.house.organisation]));

  it('are all that rest and nothing speaks against, and a hold on the first takes the note from everything that came of it', async () => {
    await forget();
    const chain = await fed();
    expect(await note(chain)).toBe(2 * links);
    await actions['a lot is put on hold']?.({ ...chain, flours: chain.flours.slice(0, 1), makes: [] }, 0);
    expect(await noted()).toBe(links - 1);
  });

  it('do not hide a hold that was lifted since from a use at the time when it stood', async () => {
    const chain = await fed();
    const [first = ''] = chain.flours;
    const hold = await b.lead.record('hold-placed', { lot: first, deviation: null }, { at: at('09:00'), words: { because: 'glass' } });
    const held = chain.makes.at(-1) ?? '';
    await b.lead.record('hold-lifted', { hold: hold.id }, { at: at('10:00'), words: { why: 'another jar' } });
    expect(await note(chain)).toBeGreaterThan(0);
    const make = await b.begun('white', at('09:30'));
    const weighed = (time: string) => b.baker.record('weighed-in', { make, lines: [b.into('flour', '10', held)] }, { at: at(time) });
    expect([(await weighed('09:40')).outcome, (await weighed('10:40')).outcome].map((o) => o.lines.map((l) => l.trouble))).toEqual([
      ['held-lot-used'],
      [null],
    ]);
  });

  it('of a flour that was destroyed are gone once more of it is used than there was', async () => {
    await forget();
    const chain = await fed();
    const action = 'most of a flour is destroyed, or all that is left of it';
    await actions[action]?.({ ...chain, flours: chain.flours.slice(0, 1) }, 0);
    const later = { ...chain, makes: chain.makes.slice(-1), flours: [] };
    expect(await note(chain)).toBe(2 * links);
    const make = await b.begun('white', at('06:40'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '10', chain.flours[0] ?? '')] }, { at: at('06:45') });
    expect(JSON.stringify(await standings(later))).toContain('more-gone-than-there-was');
  });

  it('are gone once more of a flour came back than was sent, and once what was sent is withdrawn', async () => {
    const chain = await fed();
    const [first = '', second = ''] = chain.flours;
    const later = { ...chain, makes: chain.makes.slice(-1), flours: [] };
    expect(await note(chain)).toBe(2 * links);
    const { id } = await cameBack(first);
    expect(JSON.stringify(await standings(later))).toContain('more-back-than-sent');
    await b.baker.record('entry-withdrawn', {}, { corrects: id, words: { reason: 'another lot' } });
    const lines = [{ lots: [second], quantity: g('5000'), how: 'weighed' as const }];
    const sent = await b.baker.record(
      'sent-out',
      { channel: 'stall', customer: null, unattended: false, until: null, lines },
      { at: at('08:00') },
    );
    await cameBack(second);
    await note(chain);
    expect(JSON.stringify(await standings(later))).not.toContain('more-back-than-sent');
    await b.baker.record('entry-withdrawn', {}, { corrects: sent.id, words: { reason: 'not sent' } });
    expect(JSON.stringify(await standings(later))).toContain('more-back-than-sent');
  });

  it('are gone for what comes after a hold in the same request', async () => {
    const chain = await fed();
    await note(chain);
    const make = await b.begun('white', at('09:30'));
    const use = () =>
      b.house.entry({
        kind: 'weighed-in',
        payload: { make, lines: [b.into('flour', '10', chain.makes.at(-1) ?? '')] },
        at: at('12:00'),
      });
    const hold = b.house.entry({
      kind: 'hold-placed',
      payload: { lot: chain.flours[0] ?? '', deviation: null },
      at: at('11:00'),
      words: { because: 'glass' },
    });
    const results = await b.lead.send([use(), hold, use()]);
    const troubles = (r: EntryResult | undefined) =>
      r?.as === 'recorded' ? outcomeOf('weighed-in', r.outcome)?.lines.map((l) => l.trouble) : r;
    expect([results[0], results[2]].map(troubles)).toEqual([[null], ['held-lot-used']]);
  });

  it('are gone for all that came of what was at a place that is put on hold, for earlier, and once it is told late that something was there', async () => {
    const [told, late] = [await fed(), await fed()];
    const wasThere = (c: Chain) =>
      b.baker.record('lot-counted', { lot: c.flours[0] ?? '', place: b.place('freezer'), quantity: g('10') }, { at: at('01:01') });
    const last = (c: Chain) => standings({ ...c, makes: c.makes.slice(-1), flours: [] });
    await wasThere(told);
    expect(await note(told)).toBe(2 * links);
    const held = { place: b.place('freezer'), from: '2026-11-25T01:00:00Z', until: '2026-11-25T02:00:00Z' };
    await b.lead.record('place-put-on-hold', held, { at: at('09:00'), words: { because: 'a light broke' } });
    expect(JSON.stringify(await last(told))).toContain('place-held');
    expect(await note(late)).toBe(2 * links);
    expect(JSON.stringify(await last(late))).not.toContain('place-held');
    await wasThere(late);
    expect(JSON.stringify(await last(late))).toContain('place-held');
  });

  it('changes no answer, whatever is recorded then', async () => {
    const step = fc.tuple(fc.constantFrom(...Object.keys(actions)), fc.nat(20));
    const property = fc.asyncProperty(fc.array(step, { minLength: 3, maxLength: 8 }), async (steps) => {
      await forget();
      const chain = await fed();
      for (const [name, n] of steps) {
        await note(chain);
        await actions[name]?.(chain, n);
        const withNotes = await standings(chain);
        await forget();
        expect([name, withNotes]).toEqual([name, await standings(chain)]);
      }
    });
    await fc.assert(property, { numRuns: 6 });
  });
});
