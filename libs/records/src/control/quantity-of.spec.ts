import { describe, expect, it } from '@jest/globals';
import type { CollectionName } from '../base/state.js';
import type { KindName, PayloadFor } from '../kinds.js';
import { bakehouse, delivered, g, lead, materials, night, places, tartVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid, type EntryOptions } from '../../../../test/fixtures/driver.js';
import { openedOn } from '../../../../test/fixtures/recalls.js';

const [oil, cream, recall, run] = [uuid(0xe01), uuid(0xe02), uuid(0xf02), uuid(0xe10)];
const litres = (figure: string) => ({ figure, unit: 'l' }) as const;

/** Oil of 915 mg a millilitre, cream of unknown density, and a batter of 1,050 mg a millilitre. */
function withOil(densities: Partial<Record<keyof typeof materials, number>> = { oil: 915, treacleFilling: 1050 }) {
  const book = bakehouse();
  for (const row of book.all('specification')) {
    const key = Object.entries(materials).find(([, id]) => id === row.material)?.[0];
    const density = Object.entries(densities).find(([of]) => of === key)?.[1];
    if (density !== undefined) {
      const { id, ...content } = row;
      book.given('specification', id, { ...content, densityMgPerMl: density });
    }
  }
  book.record(
    'delivery-received',
    {
      supplier: null,
      noteNumber: null,
      photo: null,
      unattended: false,
      lines: [delivered(oil, materials.oil, { quantity: g('20000') }), delivered(cream, materials.cream, { quantity: g('10000') })],
    },
    { at: night('01:00') },
  );
  const make = book.record(
    'make-begun',
    { formulaVersion: tartVersion, station: places.mixer, plan: null, bakeDay: '2026-11-25', plannedMg: null },
    { at: night('02:30') },
  ).id;
  const deviation = (subjectType: 'lot', subject: string) => {
    book.record(
      'deviation-reported',
      { subjectType, subject, class: 'ccp', holds: true },
      { at: night('03:00'), words: { what: 'smells of paint' } },
    );
    return book.all('deviation').at(-1)?.id ?? '';
  };
  openedOn(book, recall, oil);
  return { book, make, deviation };
}
type With = ReturnType<typeof withOil>;

interface Case {
  readonly kind: KindName;
  readonly payload: (n: With, quantity: ReturnType<typeof litres>) => unknown;
  readonly lot?: 'make';
  readonly rows: readonly (readonly [CollectionName, string])[];
  readonly words?: Readonly<Record<string, string>>;
}
const typed = <K extends KindName>(
  kind: K,
  payload: (n: With, quantity: ReturnType<typeof litres>) => PayloadFor<K>,
  of: Omit<Case, 'kind' | 'payload'>,
): Case => ({ kind, payload, ...of });

const cases: readonly Case[] = [
  typed(
    'goods-returned',
    (_n, quantity) => ({ lot: oil, departure: null, customer: null, quantity, how: 'weighed', disposition: 'waste' }),
    { rows: [['returned', 'mg']] },
  ),
  typed(
    'sent-out',
    (_n, quantity) => ({
      channel: 'waste',
      customer: null,
      unattended: false,
      until: null,
      lines: [{ lots: [oil], quantity, how: 'weighed' }],
    }),
    { rows: [['departure', 'mg']] },
  ),
  typed(
    'disposition-decided',
    (n, quantity) => ({
      deviation: n.deviation('lot', oil),
      lot: null,
      disposition: 'destroyed',
      covers: 'this-alone',
      concerns: [],
      quantity,
    }),
    {
      rows: [
        ['disposition', 'mg'],
        ['departure', 'mg'],
      ],
    },
  ),
  typed('recall-disposition-decided', (_n, quantity) => ({ recall, lot: oil, decision: 'destroyed', covers: 'this-alone', quantity }), {
    rows: [
      ['recallDecision', 'mg'],
      ['departure', 'mg'],
    ],
    words: { why: 'decided' },
  }),
  typed('lot-counted', (_n, quantity) => ({ lot: oil, place: null, quantity }), { rows: [['counted', 'mg']] }),
  typed('lot-emptied', (_n, left) => ({ station: places.mixer, lot: oil, left }), { rows: [['emptied', 'leftMg']] }),
  typed('lots-moved', (_n, quantity) => ({ to: places.porch, lines: [{ lot: oil, from: null, quantity, how: 'weighed' }] }), {
    rows: [['moved', 'mg']],
  }),
  typed('make-ended', (n, quantity) => ({ make: n.make, quantity, how: 'weighed' }), { lot: 'make', rows: [['makeEnded', 'mg']] }),
  typed(
    'divided',
    (n, quantity) => ({
      make: n.make,
      quantity,
      oldDough: quantity,
      scrap: quantity,
      runs: [{ run, product: materials.tart, heads: null, pieces: 1, scaling: quantity }],
    }),
    {
      lot: 'make',
      rows: [
        ['divided', 'weighedMg'],
        ['divided', 'oldDoughMg'],
        ['divided', 'scrapMg'],
        ['run', 'scalingMg'],
      ],
    },
  ),
];
const options = (words?: Readonly<Record<string, string>>): EntryOptions => ({
  at: night('06:00'),
  person: lead,
  ...(words === undefined ? {} : { words }),
});

describe('litres', () => {
  // 1.25 l of oil are 1,250 ml of 915 mg: 1,143,750 mg; of the filling, 1,250 ml of 1,050 mg: 1,312,500 mg.
  it.each(cases.map((c) => [c.kind, c] as const))('of %s are milligrams by the density of the lot’s material', (kind, c) => {
    const n = withOil();
    n.book.recordRaw(kind, c.payload(n, litres('1.25')), options(c.words));
    for (const [collection, field] of c.rows)
      expect(n.book.all(collection).at(-1)).toMatchObject({ [field]: c.lot === 'make' ? 1_312_500 : 1_143_750 });
  });

  it.each(cases.map((c) => [c.kind, c] as const))('of %s are refused where no density is known, with what to do', (kind, c) => {
    const n = withOil({});
    expect(n.book.refusalRaw(kind, c.payload(n, litres('1.25')), options(c.words))).toMatchObject({
      problem: 'unacceptable-value',
      acceptable: 'a weight; a volume once the specification of this material gives its density',
    });
  });

  it('are by the lot that was used, where it stands for another material', () => {
    const n = withOil({ oil: 915, cream: 1010 });
    const line = { material: materials.cream, lot: oil, quantity: litres('2'), how: 'weighed', type: 'ingredient' } as const;
    n.book.record('weighed-in', { make: n.make, lines: [line] }, options());
    expect(n.book.all('flow').at(-1)?.mg).toBe(1_830_000);
  });

  it('of any of several lots are by the density that they share, and refused where they differ', () => {
    const n = withOil({ oil: 915, cream: 1010 });
    const line = { lots: [oil, cream], quantity: litres('2'), how: 'weighed' as const };
    expect(
      n.book.refusal('sent-out', { channel: 'waste', customer: null, unattended: false, until: null, lines: [line] }, options()),
    ).toMatchObject({ field: 'payload.lines.0.quantity', acceptable: 'a weight: these lots have different densities' });
    const same = withOil({ oil: 915, cream: 915 });
    same.book.record('sent-out', { channel: 'waste', customer: null, unattended: false, until: null, lines: [line] }, options());
    expect(same.book.all('departure').map((d) => d.mg)).toEqual([1_830_000, 1_830_000]);
  });

  it('are by the specification that the lot came with, and by the newest where that gave no density', () => {
    const n = withOil({});
    const { id, ...first } = n.book.all('specification').find((s) => s.material === materials.oil) ?? { id: '' };
    expect(id).not.toBe('');
    const count = () => {
      n.book.record('lot-counted', { lot: oil, place: null, quantity: litres('1') }, options());
      return n.book.all('counted').at(-1)?.mg;
    };
    if (!('material' in first)) throw new Error('no specification of oil');
    n.book.given('specification', uuid(0xf50), { ...first, densityMgPerMl: 920, since: '2026-11-25T01:30:00.000Z' });
    expect(count()).toBe(920_000);
    n.book.given('specification', id, { ...first, densityMgPerMl: 915 });
    expect(count()).toBe(915_000);
  });
});
