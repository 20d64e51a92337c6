import { describe, expect, it } from '@jest/globals';
import type { VersionRow } from './rows.js';
import { correctionsOf } from './corrections.js';

const version = (entry: string, at: string, payload: unknown): VersionRow => ({
  root: 'first',
  entry,
  kind: 'reading-taken',
  recordedAt: '2026-11-25T14:00:00.000Z',
  reason: null,
  input: { at: new Date(at).toISOString(), doneBy: null, payload },
  person: 'somebody',
});
const changed = (zone: string, before: readonly [at: string, payload: unknown], after: readonly [at: string, payload: unknown]) => {
  const rows = [version('first', ...before), version('second', ...after)];
  const [chain] = correctionsOf(
    rows,
    () => null,
    () => null,
    zone,
  );
  return chain?.versions[1];
};

describe('what a correction changed', () => {
  it.each([
    [
      'over midnight',
      'America/New_York',
      '2026-11-26T04:30:00Z',
      '2026-11-26T05:30:00Z',
      '25 Nov 2026 23:30 -05:00',
      '26 Nov 2026 00:30 -05:00',
    ],
    [
      'over the clocks going back',
      'Pacific/Auckland',
      '2026-04-04T13:30:00Z',
      '2026-04-04T14:30:00Z',
      '5 Apr 2026 02:30 +13:00',
      '5 Apr 2026 02:30 +12:00',
    ],
    [
      'over the clocks going forward',
      'Pacific/Auckland',
      '2026-09-27T01:30:00+12:00',
      '2026-09-27T03:30:00+13:00',
      '27 Sep 2026 01:30 +12:00',
      '27 Sep 2026 03:30 +13:00',
    ],
  ])('is told in the site’s time: %s', (_, zone, before, after, was, is) => {
    expect(changed(zone, [before, {}], [after, {}])?.changes).toEqual([{ path: ['occurred at'], before: was, after: is }]);
  });

  it('is told in the site’s time inside what it says, too', () => {
    const of = (until: string): object => ({ until, lines: [{ left: until }] });
    const at = '2026-11-25T00:00:00Z';
    const found = changed('Pacific/Auckland', [at, of('2026-11-25T10:30:00Z')], [at, of('2026-11-25T11:30:00Z')]);
    expect(found?.summary).toEqual(['until: 26 Nov 2026 00:30 +13:00', 'lines 1: left 26 Nov 2026 00:30 +13:00']);
  });

  it('has each figure with its own unit', () => {
    const at = '2026-11-25T00:00:00Z';
    const of = (figure: string, unit: string): object => ({ value: { figure, unit } });
    const temperature = (figure: string): object => ({ temperature: { figure, unit: 'degC', measured: 'core' } });
    expect(changed('UTC', [at, temperature('9.4')], [at, temperature('4.9')])?.changes).toEqual([
      { path: ['content', 'temperature', 'figure'], before: '9.4 °C', after: '4.9 °C' },
    ]);
    expect(changed('UTC', [at, of('82.5', 'degC')], [at, of('5.4', 'pH')])).toMatchObject({
      changes: [{ path: ['content', 'value'], before: '82.5 °C', after: 'pH 5.4' }],
      summary: ['value: pH 5.4'],
    });
  });
});
