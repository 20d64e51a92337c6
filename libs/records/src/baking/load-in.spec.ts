import { describe, expect, it } from '@jest/globals';
import { baker, materials, night, places } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

describe('a load', () => {
  it('keeps oven, setting and what is in it', () => {
    const { book, loads, run } = oneBatch();
    expect(book.get('load', loads[0])).toMatchObject({ oven: places.deckOven, celsius: 225, minutes: 30, doneBy: baker });
    expect(book.all('loadLine').map((l) => [l.load, l.run, l.product, l.productName, l.pieces, l.oven])).toEqual(
      loads.map((l) => [l, run, materials.tin, 'white tin 800 g', 10, places.deckOven]),
    );
  });

  it('takes a setting in Fahrenheit: 437 °F is 225 °C', () => {
    const { book, loadPayload } = oneBatch();
    expect(
      book.record('load-in', { ...loadPayload, setting: { figure: '437', unit: 'degF' } }, { at: night('04:20') }).outcome,
    ).toMatchObject({ celsius: 225 });
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('is turned, comes out, goes back in and comes out again', () => {
    const { book, loads } = oneBatch();
    for (const [step, time] of [
      ['turned', '04:25'],
      ['out', '04:40'],
      ['back-in', '04:41'],
      ['out-again', '04:46'],
    ] as const) {
      book.record('load-stepped', { load: loads[0], step, minutes: step === 'back-in' ? 5 : null }, { at: night(time) });
    }
    expect(book.all('loadStep').map((s) => [s.step, s.minutes])).toEqual([
      ['turned', null],
      ['out', null],
      ['back-in', 5],
      ['out-again', null],
    ]);
    expect(book.record('load-stepped', { load: loads[0], step: 'turned', minutes: null }, { at: night('04:40') }).outcome).toEqual({
      seconds: 1800,
    });
    expect(book.refusal('load-stepped', { load: uuid(0xfff), step: 'out', minutes: null }, { at: night('04:40') }).problem).toBe(
      'unknown-load',
    );
  });

  it.each([
    ['unknown-place', { oven: uuid(0xfff) }],
    ['unknown-place', { deck: uuid(0xfff) }],
    ['unknown-point', { plan: uuid(0xfff) }],
    ['unknown-run', { lines: [{ run: uuid(0xfff), pieces: 1 }] }],
    ['malformed', { lines: [] }],
  ])('is refused as %s', (problem, of) => {
    const { book, loadPayload } = oneBatch();
    expect(book.refusal('load-in', { ...loadPayload, ...of }, { at: night('04:20') }).problem).toBe(problem);
  });
});
