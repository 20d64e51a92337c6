import { describe, expect, it } from '@jest/globals';
import type { Envelope } from './entry.js';
import { instantWithOffset } from './fields.js';
import { happened } from './happened.js';

const hour = 3_600_000;
const of = (occurredAt: Envelope['occurredAt'], clockErrorMs: number | null) => ({
  occurredAt,
  device: { id: null, seq: 1, clockErrorMs },
});
const recordedAt = '2026-11-25T02:00:05.000Z';

describe('when an entry happened', () => {
  it.each([
    ['three hours fast', 3 * hour, '2026-11-25T05:00:00+00:00'],
    ['three hours slow', -3 * hour, '2026-11-24T23:00:00+00:00'],
    ['right', 0, '2026-11-25T02:00:00+00:00'],
    [
      'reset to the first day that it knows',
      Date.parse('1970-01-01T00:10:00Z') - Date.parse('2026-11-25T02:00:00Z'),
      '1970-01-01T00:10:00Z',
    ],
  ])('is by true time where the clock of the device was %s', (_what, error, at) => {
    expect(happened(of({ at, precision: 'exact' }, error), recordedAt)).toEqual({
      at: '2026-11-25T02:00:00.000Z',
      until: null,
      precision: 'exact',
    });
  });

  it('is as typed where somebody said the time: the clock on the wall was right', () => {
    expect(happened(of({ at: '2026-11-25T01:30:00Z', precision: 'about' }, 3 * hour), recordedAt).at).toBe('2026-11-25T01:30:00.000Z');
    expect(happened(of({ at: '2026-11-25T01:30:00Z', until: '2026-11-25T01:40:00Z', precision: 'between' }, hour), recordedAt)).toEqual({
      at: '2026-11-25T01:30:00.000Z',
      until: '2026-11-25T01:40:00.000Z',
      precision: 'between',
    });
  });

  it('is by the clock that the entry names, where it names one', () => {
    expect(happened(of({ at: '2026-11-25T01:30:00Z', precision: 'exact', clock: 'wall' }, hour), recordedAt).at).toBe(
      '2026-11-25T01:30:00.000Z',
    );
    expect(
      happened(of({ at: '2026-11-25T02:30:00Z', until: '2026-11-25T02:40:00Z', precision: 'between', clock: 'device' }, hour), recordedAt),
    ).toMatchObject({ at: '2026-11-25T01:30:00.000Z', until: '2026-11-25T01:40:00.000Z' });
  });

  it('is not known where the device’s clock says that it has still to come: it was recorded by then, at the latest', () => {
    const fast = of({ at: '2026-11-25T05:00:00Z', precision: 'exact' }, null);
    expect(happened(fast, recordedAt)).toEqual({ at: recordedAt, until: null, precision: 'unknown' });
    expect(happened(of({ at: '2026-11-25T02:09:00Z', precision: 'exact' }, null), recordedAt)).toMatchObject({ precision: 'exact' });
    expect(happened(fast).at).toBe('2026-11-25T05:00:00.000Z');
  });

  it('takes no error for measured that would lead out of the calendar', () => {
    expect(happened(of({ at: '2026-11-25T02:00:00Z', precision: 'exact' }, Number.MAX_SAFE_INTEGER), recordedAt).at).toBe(
      '2026-11-25T02:00:00.000Z',
    );
  });

  it.each(['', '.1', '.12', '.123', '.1234', '.123456'])(
    'is written in UTC to the millisecond, however it came: seconds with “%s”',
    (fraction) => {
      for (const offset of ['Z', '+00:00', '-01:00', '+05:45']) {
        const at = instantWithOffset.parse(`2026-11-25T02:00:00${fraction}${offset}`);
        expect(happened(of({ at, precision: 'exact' }, 0)).at).toBe(new Date(at).toISOString());
      }
    },
  );
});
