import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { partyAccepted } from './party-accepted.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const payload: PayloadFor<'party-accepted'> = { party: testId(0xa2), type: 'customer', vulnerable: true, unattended: false };

describe('party-accepted', () => {
  it('keeps whom to ring as words beside the payload', () => {
    const words = { name: 'Primary school', contactName: 'Kitchen', phone: '01632 960001' }; // a number set aside for fiction
    const accepted = new House().recorded(partyAccepted, { payload, words });
    expect(accepted.rows).toEqual([
      {
        in: 'party',
        id: accepted.id,
        row: { ...payload, ...words, email: null, address: null, since: '2026-11-25T04:40:00.000Z' },
      },
    ]);
  });

  it('a new number is a new acceptance of the same party; the earlier one stays', () => {
    const h = new House();
    const first = h.recorded(partyAccepted, { payload, words: { name: 'Primary school', phone: '01632 960001' } });
    const second = h.recorded(partyAccepted, {
      payload,
      words: { name: 'Primary school', phone: '01632 960002' },
      at: '2026-11-26T04:40:00Z',
    });
    expect(h.row('party', first.id)?.phone).toBe('01632 960001');
    expect(h.row('party', second.id)).toMatchObject({ party: payload.party, phone: '01632 960002' });
  });

  it.each([[{}], [{ name: '' }]])('is refused without a name: %j', (words) => {
    expect(new House().record(partyAccepted, { payload, words })).toMatchObject({ problem: 'malformed', field: 'words.name' });
  });
});
