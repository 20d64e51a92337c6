import { calendarDay as day, decided, id, instant, instantWithOffset, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import { isHere, personNeeds } from '../people/here.js';

/** An access ends by itself; one that is wanted for longer is given again. */
const longestDays = 366;

/** An inspector is let in, to look only: at these sites, at records of these days, until it expires. */
export const accessGiven = defineKind({
  name: 'access-given',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I give this access',
  permission: 'manage.access',
  phrase: 'An inspector was given access',
  official: 'Inspector’s access granted',
  words: ['note'],
  payload: z
    .strictObject({ person: id, sites: z.array(id).min(1).max(50), from: day, until: day.nullable(), expires: instantWithOffset })
    .refine((p) => p.until === null || p.until >= p.from, { message: 'the day it begins, or a later one', path: ['until'] })
    .refine((p) => new Set(p.sites).size === p.sites.length, { message: 'each site once', path: ['sites'] }),
  outcome: z.strictObject({ expires: instant }),
  examples: [
    {
      person: '0190a6d0-7b3c-7000-8000-000000000003',
      sites: ['0190a6d0-7b3c-7000-8000-000000000002'],
      from: '2026-10-26',
      until: null,
      expires: '2026-11-26T18:00:00+00:00',
    },
  ],
  books: (p) => p.sites.map((id, i) => ({ id, field: `payload.sites.${i}`, type: 'site' })),
  needs: (p) => personNeeds(p.person),
  decide({ payload: p, at }, state) {
    if (!isHere(state, p.person, at)) return refuse('unknown-person', 'payload.person', 'a person who has joined and has not left');
    const last = Date.parse(at) + longestDays * 86_400_000;
    const expires = Date.parse(p.expires);
    return expires > Date.parse(at) && expires <= last
      ? decided({ expires: new Date(expires).toISOString() })
      : refuse('unacceptable-value', 'payload.expires', `after ${at} and at most ${longestDays} days later`);
  },
  rows: ({ payload: p, root, at }, o) => [{ in: 'accessGiven', id: root, row: { ...p, expires: o.expires, at } }],
});
