import { describe, expect, it } from '@jest/globals';
import { instrumentOutOfUse } from './instrument-out-of-use.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const instrument = testId(0x31);
const house = (): House =>
  new House([
    {
      in: 'instrument',
      id: instrument,
      row: { name: 'P1', type: 'probe', halfWidthMilli: 500, unit: 'degC', since: '2026-01-01T00:00:00.000Z' },
    },
  ]);

describe('instrument-out-of-use', () => {
  it('takes an instrument out of use once', () => {
    const h = house();
    const out = h.recorded(instrumentOutOfUse, { payload: { instrument } });
    expect(out.rows).toEqual([{ in: 'instrumentOut', id: out.id, row: { instrument, at: '2026-11-25T04:40:00.000Z' } }]);
    expect(h.record(instrumentOutOfUse, { payload: { instrument } })).toMatchObject({ problem: 'already-so', field: 'payload.instrument' });
    expect(h.record(instrumentOutOfUse, { payload: { instrument }, replaces: out }).ok).toBe(true);
  });

  it('is refused for an instrument that nobody knows', () => {
    expect(house().record(instrumentOutOfUse, { payload: { instrument: testId(99) } })).toMatchObject({
      problem: 'unknown-instrument',
      field: 'payload.instrument',
    });
  });
});
