import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { bakehouse, night, plan, points, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

function withMake(frequency: 'each-load' | 'each-make' | 'first-load-of-day' | 'each-day', ifNotMonitored: 'hold' | 'record' = 'hold') {
  const book = bakehouse();
  const made = book.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: null, plan, bakeDay: '2026-11-25', plannedMg: null },
    { at: night('02:00') },
  ).id;
  const core = book.get('controlPoint', points.tinCore);
  if (!core) throw new Error('no point');
  book.given('controlPoint', uuid(0xb80), { ...core, content: { ...core.content, frequency, ifNotMonitored } });
  const tell = (answer: PayloadFor<'reading-not-taken'>['answer'], point = uuid(0xb80)) =>
    book.record('reading-not-taken', { subjectType: 'make', subject: made, point, answer }, { at: night('05:00') });
  return { book, made, tell };
}

describe('a reading that was not taken', () => {
  it.each<[string, PayloadFor<'reading-not-taken'>['answer'], Parameters<typeof withMake>, number]>([
    ['not done, where a miss holds', 'not-done', ['each-load'], 1],
    ['not known, where a miss holds', 'not-known', ['each-load'], 1],
    ['not needed, though each load needs its own', 'not-needed', ['each-load'], 1],
    ['not needed today: it was the second load', 'not-needed', ['first-load-of-day'], 0],
    ['not needed: done already today', 'not-needed', ['each-day'], 0],
    ['not done on the first load of the day', 'not-done', ['first-load-of-day'], 1],
    ['not done, where a miss is only recorded', 'not-done', ['each-load', 'record'], 0],
  ])('%s', (_case, answer, of, opened) => {
    const { book, tell } = withMake(...of);
    tell(answer);
    expect(book.all('readingNotTaken').map((n) => [n.answer, n.pointKey])).toEqual([[answer, 'tin-core']]);
    expect(book.all('deviation').map((d) => [d.type, d.holds, d.point])).toEqual(opened === 1 ? [['not-taken', true, uuid(0xb80)]] : []);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('opens nothing where the point is a note', () => {
    const { book, tell } = withMake('each-make');
    tell('not-done', points.dough);
    expect(book.all('deviation')).toEqual([]);
  });

  it('is refused for what is not there', () => {
    const { book, made } = withMake('each-make');
    const at = { at: night('05:00') };
    expect(
      book.refusal('reading-not-taken', { subjectType: 'make', subject: uuid(0xfff), point: points.dough, answer: 'not-done' }, at).problem,
    ).toBe('unknown-subject');
    expect(
      book.refusal('reading-not-taken', { subjectType: 'make', subject: made, point: uuid(0xfff), answer: 'not-done' }, at).problem,
    ).toBe('unknown-point');
  });
});
