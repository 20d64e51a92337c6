import { describe, expect, it } from '@jest/globals';
import { partyAccepted } from './party-accepted.js';
import { partiesAt, partyStopped } from './party-stopped.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const party = testId(0xa1);
const partyRow = {
  ...{ party, type: 'supplier' as const, contactName: null, phone: null, email: null, address: null },
  ...{ vulnerable: false, unattended: false },
};
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

  it('lists whom the house deals with at an instant, each as last accepted by then', () => {
    const row = (name: string, since: string) => ({ ...partyRow, id: since, name, since });
    const rows = {
      party: [row('as it was', '2026-11-01T08:00:00.000Z'), row('taken up again', '2026-11-12T08:00:00.000Z')],
      partyStopped: [{ id: 'a', party, at: '2026-11-10T08:00:00.000Z' }],
    };
    const named = (at: string) => partiesAt(rows, at).map((p) => p.name);
    expect(named('2026-10-31T08:00:00.000Z')).toEqual([]);
    expect(named('2026-11-09T08:00:00.000Z')).toEqual(['as it was']);
    expect(named('2026-11-11T08:00:00.000Z')).toEqual([]);
    expect(named('2026-11-13T08:00:00.000Z')).toEqual(['taken up again']);
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
