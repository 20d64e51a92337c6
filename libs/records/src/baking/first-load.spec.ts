import { describe, expect, it } from '@jest/globals';
import { celsius, night, plan, points } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const notRead = 'the first load of the day, which is read for all, was not read: core temperature';
const first = uuid(0xb90);
/** A batch of the second load of its day, where the core is read at the first load of the day. */
function later() {
  const n = oneBatch();
  const content = n.book.get('controlPoint', points.tinCore)?.content;
  if (!content) throw new Error('no point');
  n.book.given('controlPoint', points.tinCore, { plan, key: content.key, content: { ...content, class: 'process-check' } });
  n.book.given('controlPoint', first, { plan, key: 'first', content: { ...content, key: 'first', frequency: 'first-load-of-day' } });
  const read = (load: string, figure: string, time = '04:40') =>
    n.book.record(
      'reading-taken',
      {
        subjectType: 'load',
        subject: load,
        point: first,
        measured: 'core',
        parameter: 'core temperature',
        instrument: null,
        value: celsius(figure),
        yes: null,
        seconds: null,
      },
      { at: night(time) },
    );
  const batch = n.countOut({ loads: [n.loads[1]], pieces: 10 }).id;
  const notTaken = (answer: 'not-done' | 'not-needed') =>
    n.book.record('reading-not-taken', { subjectType: 'load', subject: n.loads[0], point: first, answer }, { at: night('04:45') });
  return { ...n, batch, read, notTaken };
}

describe('a core that is read at the first load of the day', () => {
  it.each<[string, (n: ReturnType<typeof later>) => void, string]>([
    ['was never read', () => undefined, notRead],
    [
      'was outside',
      (n) => void n.read(n.loads[0], '88'),
      'the first load of the day, which is read for all, was outside its limit: core temperature',
    ],
    ['is not plausible', (n) => void n.read(n.loads[0], '940'), 'probe again: core temperature: not plausible'],
    ['was not done, as somebody says', (n) => void n.notTaken('not-done'), notRead],
  ])('keeps a batch of a later load where it %s', (_case, before, open) => {
    const n = later();
    before(n);
    expect(n.refused(n.batch).acceptable).toBe(`nothing open; there is: ${open}`);
  });

  it.each<[string, (n: ReturnType<typeof later>) => void]>([
    ['it was within', (n) => void n.read(n.loads[0], '96')],
    ['the later load was read itself', (n) => void n.read(n.loads[1], '96')],
    ['somebody said that it was not needed', (n) => void n.notTaken('not-needed')],
  ])('lets a batch of a later load go where %s', (_case, before) => {
    const n = later();
    before(n);
    n.release(n.batch);
    expect(n.book.all('release').map((r) => r.batch)).toEqual([n.batch]);
  });

  it('of another oven does not speak for it', () => {
    const n = later();
    const content = n.book.all('loadLine').find((l) => l.load === n.loads[0]);
    if (!content) throw new Error('no load');
    const { id, ...line } = content;
    n.book.given('loadLine', id, { ...line, oven: uuid(0xa99) });
    n.read(n.loads[0], '96');
    expect(n.refused(n.batch).acceptable).toContain('not taken: core temperature');
  });
});
