import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { bakehouse, celsius, night, places, plan, points, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid, type EntryOptions } from '../../../../test/fixtures/driver.js';

type Reading = PayloadFor<'reading-taken'>;
function withDough() {
  const book = bakehouse();
  book.given('instrument', uuid(0xf01), {
    name: 'P1',
    type: 'probe',
    halfWidthMilli: 500,
    unit: 'degC',
    since: '2026-01-01T00:00:00.000Z',
  });
  const make = book.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: null, plan, bakeDay: '2026-11-25', plannedMg: null },
    { at: night('02:00') },
  ).id;
  const payload = (figure: string, of: Partial<Reading> = {}): Reading => ({
    subjectType: 'make',
    subject: make,
    point: points.dough,
    measured: 'dough',
    parameter: 'dough temperature',
    instrument: null,
    value: celsius(figure),
    yes: null,
    seconds: null,
    ...of,
  });
  const read = (figure: string, of: Partial<Reading> = {}, told: Partial<EntryOptions> = {}) =>
    book.record('reading-taken', payload(figure, of), { at: night('02:40'), ...told });
  return { book, make, payload, read };
}
const why = { reason: 'read again' };

describe('a reading', () => {
  it('that is outside opens one deviation, and a correction to within leaves it open', () => {
    const { book, read } = withDough();
    const { id } = read('28.5');
    expect(read('26.0', {}, { corrects: id, words: why }).outcome).toMatchObject({ verdict: 'within', deviation: 'stays' });
    expect(book.all('deviation').length).toBe(1);
    expect(book.all('reading').map((r) => [r.figure, r.verdict, r.corrected])).toEqual([['26.0', 'within', true]]);
  });

  it('that is withdrawn leaves what it opened', () => {
    const { book, read } = withDough();
    const { id } = read('28.5');
    book.record('entry-withdrawn', {}, { at: night('02:45'), corrects: id, words: why });
    expect([book.all('reading').length, book.all('deviation').length]).toEqual([0, 1]);
  });

  it('is judged as a correction by the limit and the half-width of what it corrects', () => {
    const { book, read } = withDough();
    const { id } = read('27.2', { instrument: uuid(0xf01) });
    const point = book.get('controlPoint', points.dough);
    if (!point) throw new Error('no point');
    book.given('controlPoint', points.dough, {
      ...point,
      content: { ...point.content, limit: { type: 'range', min: '0', max: '1', unit: 'degC' } },
    });
    book.given('instrument', uuid(0xf01), {
      name: 'P1',
      type: 'probe',
      halfWidthMilli: 100,
      unit: 'degC',
      since: '2026-01-01T00:00:00.000Z',
    });
    expect(read('27.2', { instrument: uuid(0xf01) }, { corrects: id, words: why }).outcome).toMatchObject({
      verdict: 'unsure',
      halfWidthMilli: 500,
    });
    expect(read('26.0', {}, { corrects: id, words: why }).outcome).toMatchObject({ verdict: 'within', halfWidthMilli: 0 });
  });

  it('of a core of 940 °C is recorded as not believable and opens nothing', () => {
    const { book, make } = withDough();
    const outcome = book.record(
      'reading-taken',
      {
        subjectType: 'make',
        subject: make,
        point: points.tinCore,
        measured: 'core',
        parameter: 'core temperature',
        instrument: null,
        value: celsius('940'),
        yes: null,
        seconds: null,
      },
      { at: night('04:00') },
    ).outcome;
    expect(outcome).toMatchObject({ verdict: 'not-believable', deviation: 'none', milli: 940_000 });
  });

  it.each<[string, Partial<Reading>, string, string]>([
    ['something that is not there', { subject: uuid(0xfff) }, 'unknown-subject', 'payload.subject'],
    ['a point that is not there', { point: uuid(0xfff) }, 'unknown-point', 'payload.point'],
    ['an instrument that is not there', { instrument: uuid(0xfff) }, 'unknown-instrument', 'payload.instrument'],
    ['kilograms of warmth', { value: { figure: '26', unit: 'kg' } }, 'unacceptable-value', 'payload.value.unit'],
    ['yes where a temperature is asked for', { value: null, yes: true }, 'unacceptable-value', 'payload.value.unit'],
    ['a value and yes', { yes: true }, 'malformed', 'payload.value'],
    ['a weight that no scale shows', { point: null, value: { figure: '999999999', unit: 't' } }, 'malformed', 'payload.value.figure'],
  ])('is refused for %s', (_case, of, problem, field) => {
    const { book, payload } = withDough();
    expect(book.refusal('reading-taken', payload('26', of), { at: night('02:40') })).toMatchObject({ problem, field });
  });

  it('moves with its deviation where the wrong load was tapped', () => {
    const { book, read } = withDough();
    const other = book.record(
      'make-begun',
      { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg: null },
      { at: night('02:00') },
    ).id;
    const { id } = read('28.5');
    read('28.5', { subject: other }, { corrects: id, words: why });
    expect(book.all('deviation').map((d) => d.subject)).toEqual([other]);
  });
});
