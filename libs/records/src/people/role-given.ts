import { decided, id, instant, instantWithOffset, refuse, role } from '@bakehouse/kernel';
import * as z from 'zod';
import { isHere, personNeeds } from './here.js';
import { administratorsNeed, administratorsThen, leavesNobody } from './last-administrator.js';
import { defineKind } from '../base/kind.js';

/**
 * Somebody may act in a role from now on, at one site or at every site (null), until a day or until it is taken away.
 * An inspector's access has a period and an expiry: it is given by `access-given`, never here.
 */
export const roleGiven = defineKind({
  name: 'role-given',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I give this role',
  permission: 'manage.people',
  phrase: 'A role was given',
  official: 'Role assigned',
  payload: z.strictObject({ person: id, role: role.exclude(['inspector']), site: id.nullable(), until: instantWithOffset.nullable() }),
  outcome: z.strictObject({ until: instant.nullable() }),
  examples: [{ person: '0190a6d0-7b3c-7000-8000-000000000003', role: 'baker', site: null, until: null }],
  books: (p) => (p.site === null ? [] : [{ id: p.site, field: 'payload.site', type: 'site' }]),
  needs: (p) => [...personNeeds(p.person), administratorsNeed],
  then: (_p, state) => administratorsThen(state),
  decide({ payload: p, at, root, corrects }, state) {
    if (!isHere(state, p.person, at)) return refuse('unknown-person', 'payload.person', 'a person who has joined and has not left');
    const forEver = p.role === 'administrator' && p.site === null && p.until === null;
    if (corrects !== undefined && !forEver && leavesNobody(state, at, (g) => g.id === root))
      return refuse('last-administrator', 'payload.role');
    const until = p.until === null ? null : new Date(p.until).toISOString();
    return until !== null && until <= at
      ? refuse('unacceptable-value', 'payload.until', 'a time after the start of the role')
      : decided({ until });
  },
  rows: ({ payload: p, root, at }, o) => [
    { in: 'roleGiven', id: root, row: { person: p.person, role: p.role, site: p.site, since: at, until: o.until } },
  ],
});
