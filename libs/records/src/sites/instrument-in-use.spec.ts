import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { instrumentInUse } from './instrument-in-use.js';
import { House } from '../../../../test/support/try-kind.js';

const probe: PayloadFor<'instrument-in-use'> = { name: 'P1', type: 'probe', unit: 'degC', halfWidth: '0.5' };

describe('instrument-in-use', () => {
  it.each<[PayloadFor<'instrument-in-use'>, number]>([
    [probe, 500],
    [{ ...probe, halfWidth: '0.0004' }, 1], // rounded up: never claimed to be better than it is
    [{ ...probe, halfWidth: '1.2341' }, 1235],
    [{ name: 'Bench scale', type: 'scale', unit: 'g', halfWidth: '2.5' }, 2500],
  ])('keeps the half-width of %j in thousandths', (payload, halfWidthMilli) => {
    const used = new House().recorded(instrumentInUse, { payload });
    expect(used.rows).toEqual([
      {
        in: 'instrument',
        id: used.id,
        row: { name: payload.name, type: payload.type, unit: payload.unit, halfWidthMilli, since: '2026-11-25T04:40:00.000Z' },
      },
    ]);
  });

  it.each([
    [{ ...probe, halfWidth: '0' }, 'unacceptable-value', 'payload.halfWidth'],
    [{ ...probe, halfWidth: '5.01' }, 'unacceptable-value', 'payload.halfWidth'],
    [{ ...probe, halfWidth: '-1' }, 'malformed', 'payload.halfWidth'],
    [{ ...probe, unit: 'g' }, 'malformed', 'payload.unit'],
    [{ ...probe, type: 'scale' }, 'malformed', 'payload.unit'],
  ])('refuses %j', (payload, problem, field) => {
    expect(new House().recordRaw(instrumentInUse, { payload })).toMatchObject({ problem, field });
  });
});
