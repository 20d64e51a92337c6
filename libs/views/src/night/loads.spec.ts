import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '@bakehouse/records';
import { nightView } from './night-view.js';
import { night, row } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const at = (n: ReturnType<typeof oneBatch>, time: string) =>
  nightView(n.book.snapshot(), { bakeDay: '2026-11-25', at: row(time), zone: 'Europe/London' });

describe('what is in the oven', () => {
  it('says how many more pieces went into an oven than were made up, where two tablets loaded the same', () => {
    const n = oneBatch();
    const [run] = at(n, '04:30').makes[0]?.runs ?? [];
    expect([run?.loaded, run?.moreLoaded]).toEqual([20, 0]);
    n.book.record('load-in', n.loadPayload, { at: night('04:13') });
    const [twice] = at(n, '04:30').makes[0]?.runs ?? [];
    expect([twice?.loaded, twice?.moreLoaded]).toEqual([30, 10]);
  });

  it('never lets minutes more shorten a load that is in the oven by the records', () => {
    const n = oneBatch();
    const step = (of: PayloadFor<'load-stepped'>['step'], time: string, minutes: number | null = null) =>
      n.book.record('load-stepped', { load: n.loads[0], step: of, minutes }, { at: night(time) });
    step('back-in', '04:11', 5);
    expect(at(n, '04:12').loads[0]?.now).toEqual({ in: true, since: row('04:10'), due: row('04:40') });
    step('back-in', '04:38', 5);
    expect(at(n, '04:39').loads[0]?.now).toEqual({ in: true, since: row('04:10'), due: row('04:43') });
  });
});
