import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { siteDescribed } from './site-described.js';
import { House } from '../../../../test/support/try-kind.js';

// Numbers set aside for fiction.
const payload: PayloadFor<'site-described'> = {
  registration: 'FB 10442',
  authority: { name: 'District food safety office', phone: '01632 960110', outOfHours: null },
};
const nothing = { address: null, phone: null, registration: null, authority: null, authorityPhone: null, authorityOutOfHours: null };

describe('site-described', () => {
  it('keeps the address as words beside the payload, and whom to inform', () => {
    const said = new House().recorded(siteDescribed, { payload, words: { address: '3 Mill Lane' } });
    expect(said.rows).toEqual([
      {
        in: 'siteDetails',
        id: said.id,
        row: {
          ...nothing,
          address: '3 Mill Lane',
          registration: 'FB 10442',
          authority: 'District food safety office',
          authorityPhone: '01632 960110',
          at: '2026-11-25T04:40:00.000Z',
        },
      },
    ]);
  });

  it('may leave out what is not known yet', () => {
    const said = new House().recorded(siteDescribed, { payload: { registration: null, authority: null } });
    expect(said.rows[0]?.row).toEqual({ ...nothing, at: '2026-11-25T04:40:00.000Z' });
  });

  it.each([
    ['authority.name', { registration: null, authority: { name: ' ', phone: null, outOfHours: null } }],
    ['authority.phone', { registration: null, authority: { name: 'Office', phone: '', outOfHours: null } }],
    ['registration', { registration: '', authority: null }],
  ])('is malformed with nothing in %s', (_what, bad) => {
    expect(new House().record(siteDescribed, { payload: bad })).toMatchObject({ problem: 'malformed' });
  });
});
