import { concernsOf, workingSetOf } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { type bakehouse, delivered, g, lead, materials, night, plan, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { lot, troubles, withFlour, type Line } from '../../../../test/fixtures/with-flour.js';

const why = { reason: 'wrong lot tapped' };

describe('weighing in', () => {
  it('draws a flow from the lot into the make', () => {
    const { book, make, line, weigh } = withFlour();
    weigh([line(), line({ quantity: g('100'), type: 'late-addition' })]);
    expect(book.all('flow').map((f) => [f.source, f.target, f.mg, f.type])).toEqual([
      [lot, make, 2_000_000, 'ingredient'],
      [lot, make, 100_000, 'late-addition'],
    ]);
  });

  it.each<[string, string, (book: ReturnType<typeof bakehouse>) => void, Record<string, unknown>]>([
    [
      'set aside',
      'held-lot-used',
      (book) => {
        book.record('hold-placed', { lot, deviation: null }, { at: night('01:30') });
      },
      {},
    ],
    [
      'refused',
      'refused-lot-used',
      (book) => {
        book.record('receipt-decided', { lot, decision: 'refused' }, { at: night('01:30') });
      },
      {},
    ],
    [
      'with something open that holds it',
      'held-lot-used',
      (book) => {
        book.record(
          'deviation-reported',
          { subjectType: 'lot', subject: lot, class: 'ccp', holds: true },
          { at: night('01:30'), words: { what: 'glass' } },
        );
      },
      {},
    ],
    ['past its use-by date', 'expired-lot-used', () => undefined, { useBy: '2026-11-24' }],
  ])('records a lot that is used though it is %s, and opens one deviation', (_case, type, before, of) => {
    const { book, make, line, weigh } = withFlour(of);
    before(book);
    weigh([line(), line()]);
    expect(book.all('flow').length).toBe(2);
    expect(troubles(book, make)).toEqual([[type, false]]);
    expect(concernsOf(workingSetOf(book.snapshot()), [make]).get(make)).toHaveLength(1);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it.each<[string, (book: ReturnType<typeof bakehouse>) => void, Record<string, unknown>]>([
    [
      'its hold was lifted',
      (book) => {
        const hold = book.record('hold-placed', { lot, deviation: null }, { at: night('01:30') }).id;
        book.record('hold-lifted', { hold }, { at: night('01:40'), words: { why: 'looked at' } });
      },
      {},
    ],
    [
      'it was accepted after all',
      (book) => {
        book.record('receipt-decided', { lot, decision: 'refused' }, { at: night('01:30') });
        book.record(
          'refused-goods-accepted',
          { lot, decision: 'accepted', covers: 'this-alone' },
          { at: night('01:35'), person: lead, words: { why: 'the seal is whole' } },
        );
      },
      {},
    ],
    ['today is its last day', () => undefined, { useBy: '2026-11-25' }],
    ['its best-before date is over', () => undefined, { bestBefore: '2026-11-01' }],
  ])('opens nothing where %s', (_case, before, of) => {
    const { book, make, line, weigh } = withFlour(of);
    before(book);
    weigh([line()]);
    expect(troubles(book, make)).toEqual([]);
  });

  it('reads the date of use off the wall: half past midnight in summer time is the next day', () => {
    const { book, make, line, weigh } = withFlour({ useBy: '2026-06-10' });
    weigh([line()], { at: '2026-06-11T00:30:00+01:00' });
    expect(troubles(book, make)).toEqual([['expired-lot-used', false]]);
    expect(book.all('flow').map((f) => f.day)).toEqual(['2026-06-11']);
  });

  it.each([
    ['within its life', '04:00', []],
    ['past its life', '08:05', [['past-life-used', false]]],
  ])('says that a dough of an earlier make was used %s', (_case, time, found) => {
    const { book, make, line, weigh } = withFlour();
    const version = book.all('formulaVersion').find((v) => v.id === whiteVersion);
    if (!version) throw new Error('no formula');
    const { id: _id, ...keeps } = { ...version, content: { ...version.content, lifeHours: 6 } };
    book.given('formulaVersion', whiteVersion, keeps);
    const another = book.record(
      'make-begun',
      { formulaVersion: whiteVersion, station: null, plan, bakeDay: '2026-11-25', plannedMg: null },
      { at: night('03:00') },
    ).id;
    weigh([line({ lot: make })], { at: night('03:10') });
    book.record('weighed-in', { make: another, lines: [line({ lot: make, type: 'rework' })] }, { at: night(time) });
    expect(troubles(book, another)).toEqual(found);
  });

  it('makes a placeholder where nobody knows the lot, and keeps it when it is tapped in a correction', () => {
    const { book, line, weigh } = withFlour();
    const { id } = weigh([line({ lot: null })]);
    const placeholder = book.all('lot').find((l) => l.type === 'placeholder')?.id ?? '';
    weigh([line({ lot: placeholder, quantity: g('1900') })], { corrects: id, words: why });
    expect(
      book
        .all('lot')
        .filter((l) => l.type === 'placeholder')
        .map((l) => l.id),
    ).toEqual([placeholder]);
    expect(book.all('flow').map((f) => [f.source, f.mg])).toEqual([[placeholder, 1_900_000]]);
    weigh([line()], { corrects: id, words: why });
    expect(book.all('lot').filter((l) => l.type === 'placeholder')).toEqual([]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('keeps the deviation of a lot that was tapped by mistake, for somebody to close', () => {
    const { book, make, line, weigh } = withFlour();
    book.record('hold-placed', { lot, deviation: null }, { at: night('01:30') });
    const { id } = weigh([line()]);
    weigh([line({ lot: null })], { corrects: id, words: why });
    expect(troubles(book, make)).toEqual([['held-lot-used', false]]);
  });

  it('shares the trouble of the lot that an unnamed one turned out to be', () => {
    const { book, make, line, weigh } = withFlour();
    const unnamed = uuid(0xe09);
    book.record(
      'delivery-received',
      {
        supplier: null,
        noteNumber: null,
        photo: null,
        unattended: true,
        lines: [delivered(unnamed, materials.flour, { code: null, codeState: 'not-known-yet' })],
      },
      { at: night('01:00') },
    );
    book.record('hold-placed', { lot, deviation: null }, { at: night('01:30') });
    book.record('lot-identified', { lot: unnamed, code: null, same: lot, delivery: null }, { at: night('01:40') });
    weigh([line({ lot: unnamed })]);
    expect(troubles(book, make)).toEqual([['held-lot-used', false]]);
  });

  it('says when another material is used instead', () => {
    const { line, weigh } = withFlour();
    expect(weigh([line({ material: materials.oil })]).outcome['lines']).toMatchObject([{ instead: true, name: 'white flour' }]);
  });

  it('keeps who did it', () => {
    const { book, line, weigh } = withFlour();
    book.record('hold-placed', { lot, deviation: null }, { at: night('01:30') });
    weigh([line()], { doneBy: lead });
    expect(book.all('deviation').map((d) => d.doneBy)).toEqual([lead]);
  });

  it.each<[string, Partial<Line>, string, string]>([
    ['a lot that is not there', { lot: uuid(0xfff) }, 'unknown-lot', 'payload.lines.0.lot'],
    ['a material that is not there', { material: uuid(0xfff) }, 'unknown-material', 'payload.lines.0.material'],
    ['degrees of flour', { quantity: { figure: '20', unit: 'degC' } }, 'unacceptable-value', 'payload.lines.0.quantity'],
    ['less than nothing', { quantity: g('-1') }, 'unacceptable-value', 'payload.lines.0.quantity'],
    ['nothing', { quantity: g('0') }, 'unacceptable-value', 'payload.lines.0.quantity'],
    ['less than a milligram', { quantity: g('0.0004') }, 'unacceptable-value', 'payload.lines.0.quantity'],
    ['litres of what has no density', { quantity: { figure: '1', unit: 'l' } }, 'unacceptable-value', 'payload.lines.0.quantity'],
    ['more than there can be', { quantity: { figure: '999999999', unit: 't' } }, 'malformed', 'payload.lines.0.quantity.figure'],
  ])('is refused for %s', (_case, of, problem, field) => {
    const { book, make, line } = withFlour();
    expect(book.refusal('weighed-in', { make, lines: [line(of)] }, { at: night('02:05') })).toMatchObject({ problem, field });
  });

  it('is refused for a make that is not there', () => {
    const { book, line } = withFlour();
    expect(book.refusal('weighed-in', { make: uuid(0xfff), lines: [line()] }, { at: night('02:05') })).toMatchObject({
      problem: 'unknown-make',
    });
  });
});
