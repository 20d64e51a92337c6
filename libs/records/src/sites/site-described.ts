import { code, decided, name } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';

/** Who watches over the food of this site, and how they are reached: told first when food may hurt people. */
const authority = z.strictObject({ name, phone: code.nullable(), outOfHours: code.nullable() });

/**
 * Where a site is, the number it is registered under as a food business, and its food-safety authority. All of it is given again each time: the newest holds.
 * Papers print it; no verdict depends on it.
 */
export const siteDescribed = defineKind({
  name: 'site-described',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'manage.site',
  phrase: 'The site’s address and authority were written down',
  official: 'Address and authority of the site',
  words: ['address', 'phone', 'note'],
  payload: z.strictObject({ registration: code.nullable(), authority: authority.nullable() }),
  outcome: z.strictObject({}),
  examples: [
    {
      registration: 'FB 10442',
      authority: { name: 'District food safety office', phone: '01632 960110', outOfHours: '01632 960111' },
    },
  ],
  needs: () => [],
  decide: () => decided({}),
  rows: ({ payload: p, root, at, word }) => [
    {
      in: 'siteDetails',
      id: root,
      row: {
        address: word('address'),
        phone: word('phone'),
        registration: p.registration,
        authority: p.authority?.name ?? null,
        authorityPhone: p.authority?.phone ?? null,
        authorityOutOfHours: p.authority?.outOfHours ?? null,
        at,
      },
    },
  ],
});
