import { describe, expect, it } from '@jest/globals';
import { partyAccepted } from './party-accepted.js';
import { partyStopped } from './party-stopped.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const party = testId(0xa1);
const accepted = { payload: { party, type: 'supplier' as const, vulnerable: false, unattended: false }, words: { name: 'Nut importer' } };

describe('party-stopped', () => {
  it('stops a party once, until it is accepted again', () => {
    const h = new House();
    h.recorded(partyAccepted, { ...accepted, at: '2026-11-01T08:00:00Z' });
    const stop = h.recorded(partyStopped, { payload: { party }, at: '2026-11-10T08:00:00Z' });
    expect(stop.rows).toEqual([{ in: 'partyStopped', id: stop.id, row: { party, at: '2026-11-10T08:00:00.000Z' } }]);
    expect(h.record(partyStopped, { payload: { party }, at: '2026-11-11T08:00:00Z' })).toMatchObject({
      problem: 'already-so',
      field: 'payload.party',
    });
    h.recorded(partyAccepted, { ...accepted, at: '2026-11-12T08:00:00Z' });
    expect(h.record(partyStopped, { payload: { party }, at: '2026-11-13T08:00:00Z' }).ok).toBe(true);
  });

  it('a correction of its time is not a second stop', () => {
    const h = new House();
    h.recorded(partyAccepted, { ...accepted, at: '2026-11-01T08:00:00Z' });
    const stop = h.recorded(partyStopped, { payload: { party }, at: '2026-11-10T08:00:00Z' });
    expect(h.record(partyStopped, { payload: { party }, at: '2026-11-10T09:00:00Z', replaces: stop }).ok).toBe(true);
  });

  it('is refused for a party that nobody knows', () => {
    expect(new House().record(partyStopped, { payload: { party } })).toMatchObject({ problem: 'unknown-party', field: 'payload.party' });
  });
});
