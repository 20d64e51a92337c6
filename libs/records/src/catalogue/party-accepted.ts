import { decided, id, missingWord } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import { partyType } from '../rows/catalogue.js';

/**
 * A supplier or customer as known from now on, and whom to ring there. A new number is a new acceptance of the same party: all of it is
 * given again. After dealing with a party was stopped, a later acceptance takes it up again.
 */
export const partyAccepted = defineKind({
  name: 'party-accepted',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'manage.catalogue',
  phrase: 'A supplier or customer was accepted',
  official: 'Supplier or customer approved',
  words: ['name', 'contactName', 'phone', 'email', 'address', 'note'],
  payload: z.strictObject({ party: id, type: partyType, vulnerable: z.boolean(), unattended: z.boolean() }),
  outcome: z.strictObject({}),
  examples: [{ party: '0190a6d0-7b3c-7000-8000-0000000000a2', type: 'customer', vulnerable: true, unattended: false }],
  needs: () => [],
  decide: (entry) => missingWord(entry, 'name', 'the name of the supplier or customer') ?? decided({}),
  rows: ({ payload: p, root, at, word }) => [
    {
      in: 'party',
      id: root,
      row: {
        ...p,
        name: word('name'),
        contactName: word('contactName'),
        phone: word('phone'),
        email: word('email'),
        address: word('address'),
        since: at,
      },
    },
  ],
});
