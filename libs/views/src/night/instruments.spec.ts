import { describe, expect, it } from '@jest/globals';
import type { Snapshot } from '@bakehouse/records';
import { instrumentsFor, proposedInstrument } from './instruments.js';
import { row } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const types = { P1: 'probe', P2: 'probe', fridge: 'fixed-sensor', gun: 'infrared' } as const;
const all = ['fridge', 'P1', 'P2', 'gun'] as const;

/** A house with these instruments, whose one core was read with one of them. */
function house(ids: readonly (keyof typeof types)[], readWith: string | null = null): Snapshot {
  const n = oneBatch();
  n.core(n.loads[0], '95.1');
  const snapshot = n.book.snapshot();
  const of = { unit: 'degC' as const, halfWidthMilli: 500, since: row('01:00') };
  return {
    ...snapshot,
    instrument: ids.map((id) => ({ id, name: id, type: types[id], ...of })),
    reading: snapshot.reading.map((r) => ({ ...r, instrument: readWith })),
  };
}
const asks = (measured: 'core' | 'air') => ({
  measured,
  limit: { type: 'range' as const, min: '94', max: null, unit: 'degC' as const },
});

const sound = (): boolean => false;
const failed = (id: string): boolean => id === 'P1';

describe('what a reading is taken with', () => {
  it('is never a sensor that hangs somewhere, nor something that sees the outside alone, for a core', () => {
    expect(instrumentsFor(house(all), asks('core')).map((i) => i.id)).toEqual(['P1', 'P2']);
    expect(instrumentsFor(house(all), asks('air')).map((i) => i.id)).toEqual([...all]);
  });

  it('is proposed as on this tablet, then as anywhere in the house the last time, and where there is one alone', () => {
    expect(proposedInstrument(house(all, 'P2'), asks('core'), ['P1'], sound)).toBe('P1');
    expect(proposedInstrument(house(all, 'P2'), asks('core'), ['fridge', null], sound)).toBe('P2');
    expect(proposedInstrument(house(['P1', 'fridge']), asks('core'), [], sound)).toBe('P1');
    expect(proposedInstrument(house(all), asks('core'), [], sound)).toBeNull();
  });

  it('is not proposed while its readings would be in doubt, however often it was used', () => {
    expect(proposedInstrument(house(['P1', 'P2'], 'P1'), asks('core'), ['P1'], failed)).toBe('P2');
    expect(proposedInstrument(house(['P1', 'fridge'], 'P1'), asks('core'), ['P1'], failed)).toBeNull();
  });
});
