import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { workingSetOf } from '../base/snapshot.js';
import { concernsOf } from '../standing/standings.js';
import { openAt } from './open-at.js';
import { bakehouse, delivered, g, materials, night, places, plan, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid, type EntryOptions } from '../../../../test/fixtures/driver.js';

const [monday, tuesday] = [uuid(0xe01), uuid(0xe02)];
type ToppedUp = PayloadFor<'vessel-topped-up'>;
function withTub() {
  const book = bakehouse();
  book.record(
    'delivery-received',
    {
      supplier: null,
      noteNumber: null,
      photo: null,
      unattended: false,
      lines: [delivered(monday, materials.flour), delivered(tuesday, materials.flour)],
    },
    { at: night('00:30') },
  );
  const payload = (lot: string | null, of: Partial<ToppedUp> = {}): ToppedUp => ({
    vessel: places.tub,
    material: materials.whiteDough,
    kept: null,
    keptHow: 'estimated',
    added: [{ material: materials.flour, lot, quantity: g('1090'), how: 'weighed' }],
    ...of,
  });
  const fill = (lot: string | null, time: string, of: Partial<ToppedUp> = {}, told: Partial<EntryOptions> = {}) =>
    book.record('vessel-topped-up', payload(lot, of), { at: night(time), ...told }).id;
  const open = (station: string, time: string) =>
    openAt(book.all('inUse'), book.all('emptied'), `2026-11-25T${time}:00.000Z`)
      .filter((o) => o.station === station)
      .map((o) => o.lot);
  const into = (lot: string) =>
    book
      .all('flow')
      .filter((f) => f.target === lot)
      .map((f) => [f.source, f.mg]);
  return { book, payload, fill, open, into };
}

describe('topping up a vessel', () => {
  it('makes a new content that holds the old one, and goes on where the old one was open', () => {
    const { book, fill, open, into } = withTub();
    const first = fill(monday, '01:00');
    book.record('lot-opened', { station: places.mixer, material: materials.flour, lot: first, beside: false }, { at: night('01:10') });
    const second = fill(tuesday, '02:00', { kept: g('420'), keptHow: 'weighed' });
    expect(into(first)).toEqual([[monday, 1_090_000]]);
    expect(into(second)).toEqual([
      [first, 420_000],
      [tuesday, 1_090_000],
    ]);
    expect([open(places.tub, '01:30'), open(places.tub, '02:00')]).toEqual([[first], [second]]);
    expect([open(places.mixer, '01:30'), open(places.mixer, '02:00')]).toEqual([[first], [second]]);
    expect(book.get('lot', second)).toMatchObject({ type: 'vessel', material: materials.whiteDough, codeState: 'own' });
  });

  it('keeps the chain though nobody knows how little was left, and through a correction', () => {
    const { book, fill, into } = withTub();
    const first = fill(monday, '01:00');
    const second = fill(tuesday, '02:00');
    expect(into(second)).toEqual([
      [first, null],
      [tuesday, 1_090_000],
    ]);
    fill(tuesday, '02:00', { kept: g('5') }, { corrects: second, words: { reason: 'weighed since' } });
    expect(into(second)).toEqual([
      [first, 5_000],
      [tuesday, 1_090_000],
    ]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('after a clean-out holds nothing of what was there', () => {
    const { book, fill, open, into } = withTub();
    fill(monday, '01:00');
    book.record('vessel-cleaned-out', { vessel: places.tub }, { at: night('01:30') });
    expect(open(places.tub, '01:40')).toEqual([]);
    expect(into(fill(tuesday, '02:00'))).toEqual([[tuesday, 1_090_000]]);
  });

  it('passes trouble on to the new content, from what was added and from what was there', () => {
    const { book, fill } = withTub();
    book.record('hold-placed', { lot: monday, deviation: null }, { at: night('00:40') });
    const first = fill(monday, '01:00');
    const second = fill(tuesday, '02:00');
    expect(book.all('deviation').map((d) => [d.subject, d.type])).toEqual([
      [first, 'held-lot-used'],
      [second, 'held-lot-used'],
    ]);
  });

  it('that is told late goes on into the content that came next, and is in the vessel no longer than that', () => {
    const { book, fill, open, into } = withTub();
    const first = fill(monday, '01:00');
    book.record('lot-opened', { station: places.mixer, material: materials.flour, lot: first, beside: false }, { at: night('01:10') });
    const last = fill(monday, '03:00');
    const late = fill(tuesday, '02:00');
    const between = fill(tuesday, '02:30');
    expect(into(last)).toEqual([
      [first, null],
      [monday, 1_090_000],
      [late, null],
      [between, null],
    ]);
    expect(into(between)).toEqual([
      [late, null],
      [tuesday, 1_090_000],
    ]);
    for (const station of [places.tub, places.mixer])
      expect(['01:30', '02:10', '02:40', '03:10'].map((time) => open(station, time))).toEqual([[first], [late], [between], [last]]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('that is told late was cleaned out with the rest', () => {
    const { book, fill, open, into } = withTub();
    fill(monday, '01:00');
    book.record('vessel-cleaned-out', { vessel: places.tub }, { at: night('02:30') });
    const last = fill(monday, '03:00');
    const late = fill(tuesday, '02:00');
    expect(into(last)).toEqual([[monday, 1_090_000]]);
    expect(['02:10', '02:40', '03:10'].map((time) => open(places.tub, time))).toEqual([[late], [], [last]]);
  });

  it('that is told late was cleaned out, also where nothing was known to be in it then', () => {
    const { book, fill, open, into } = withTub();
    book.record('vessel-cleaned-out', { vessel: places.tub }, { at: night('02:30') });
    const last = fill(monday, '03:00');
    const late = fill(tuesday, '02:00');
    expect(into(last)).toEqual([[monday, 1_090_000]]);
    expect(['02:10', '02:40', '03:10'].map((time) => open(places.tub, time))).toEqual([[late], [], [last]]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('is in the next content once, also when it is corrected', () => {
    const { fill, into } = withTub();
    const first = fill(monday, '01:00');
    const second = fill(tuesday, '02:00', { kept: g('420'), keptHow: 'weighed' });
    fill(monday, '01:00', { kept: g('5') }, { corrects: first, words: { reason: 'weighed since' } });
    expect(into(second)).toEqual([
      [first, 420_000],
      [tuesday, 1_090_000],
    ]);
  });

  it('makes a placeholder for what nobody can name', () => {
    const { book, fill, into } = withTub();
    const [source] = into(fill(null, '01:00'))[0] ?? [];
    expect(book.get('lot', String(source))).toMatchObject({ type: 'placeholder', name: 'white flour' });
  });

  it.each<[string, Partial<ToppedUp>]>([
    ['unknown-place', { vessel: uuid(0xfff) }],
    ['unknown-material', { material: uuid(0xfff) }],
    ['unacceptable-value', { kept: { figure: '1', unit: 'degC' } }],
    ['unknown-lot', { added: [{ material: materials.flour, lot: uuid(0xfff), quantity: null, how: 'estimated' }] }],
    ['unknown-material', { added: [{ material: uuid(0xfff), lot: null, quantity: null, how: 'estimated' }] }],
  ])('is refused as %s', (problem, of) => {
    const { book, payload } = withTub();
    expect(book.refusal('vessel-topped-up', payload(monday, of), { at: night('01:00') }).problem).toBe(problem);
  });
});

describe('cleaning a vessel out', () => {
  it('comes out the same when it is corrected, and is refused for no vessel', () => {
    const { book, fill } = withTub();
    const first = fill(monday, '01:00');
    const { id } = book.record('vessel-cleaned-out', { vessel: places.tub }, { at: night('01:30') });
    book.record('vessel-cleaned-out', { vessel: places.tub }, { at: night('01:35'), corrects: id, words: { reason: 'the time' } });
    expect(book.all('emptied').map((e) => [e.lot, e.at, e.leftMg])).toEqual([[first, '2026-11-25T01:35:00.000Z', 0]]);
    expect(book.refusal('vessel-cleaned-out', { vessel: uuid(0xfff) }, { at: night('01:30') }).problem).toBe('unknown-place');
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('says so of the next content where a content was told of late, and the clean-out after it later still', () => {
    const { book, fill } = withTub();
    const last = fill(monday, '03:00');
    const late = fill(tuesday, '02:00');
    expect(book.all('flow').find((f) => f.source === late)?.at).toBe('2026-11-25T03:00:00.000Z');
    book.record('vessel-cleaned-out', { vessel: places.tub }, { at: night('02:30') });
    const found = concernsOf(workingSetOf(book.snapshot()), [last]);
    expect((found.get(last) ?? []).map((r) => r.concern.type)).toEqual(['used-after-clean-out']);
  });

  it('says so too of a content that was told of after the clean-out', () => {
    const { book, fill } = withTub();
    book.record('vessel-cleaned-out', { vessel: places.tub }, { at: night('01:30') });
    const content = fill(monday, '01:00');
    expect(book.all('emptied').filter((e) => e.lot === content)).toMatchObject([{ station: places.tub, leftMg: 0 }]);
    const begun = { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg: null };
    const make = book.record('make-begun', begun, { at: night('01:55') }).id;
    const line = { material: materials.whiteDough, lot: content, quantity: g('100'), how: 'weighed' as const, type: 'ingredient' as const };
    book.record('weighed-in', { make, lines: [line] }, { at: night('02:00') });
    const found = concernsOf(workingSetOf(book.snapshot()), [make]);
    expect((found.get(make) ?? []).map((r) => r.concern.type)).toEqual(['used-after-clean-out']);
  });

  it.each([
    ['the clean-out', ['02:00', '01:30']],
    ['the use', ['01:30', '02:00']],
  ] as const)('says of what was made of the content after it that the records do not fit, also where %s came last', (_case, times) => {
    const { book, fill } = withTub();
    const content = fill(monday, '01:00');
    const begun = { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg: null };
    const [make, before] = [
      book.record('make-begun', begun, { at: night('01:55') }).id,
      book.record('make-begun', begun, { at: night('01:10') }).id,
    ];
    const line = { material: materials.whiteDough, lot: content, quantity: g('100'), how: 'weighed' as const, type: 'ingredient' as const };
    const use = (into: string, at: string) => book.record('weighed-in', { make: into, lines: [line] }, { at: night(at) });
    use(before, '01:15');
    const cleaned = () => book.record('vessel-cleaned-out', { vessel: places.tub }, { at: night('01:30') }).id;
    const first = times[0] === '01:30' ? cleaned() : undefined;
    use(make, '02:00');
    const clean = first ?? cleaned();
    const said = () => {
      const found = concernsOf(workingSetOf(book.snapshot()), [make, before, content]);
      return [make, before, content].map((lot) => (found.get(lot) ?? []).map((r) => [r.concern.type, r.concern.since]));
    };
    expect(said()).toEqual([[['used-after-clean-out', '2026-11-25T02:00:00.000Z']], [], []]);
    book.record('vessel-cleaned-out', { vessel: places.tub }, { at: night('02:10'), corrects: clean, words: { reason: 'the time' } });
    expect(said()).toEqual([[], [], []]);
  });
});
