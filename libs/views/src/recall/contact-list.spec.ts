import { describe, expect, it } from '@jest/globals';
import { contactList, type ContactDeparture } from './contact-list.js';

const d = (party: string, more: Partial<ContactDeparture> = {}): ContactDeparture => ({
  party,
  name: party,
  contactName: null,
  phone: '01',
  type: 'customer',
  vulnerable: false,
  unattended: false,
  lot: 'l',
  lotName: 'Tartlet',
  code: 'T1',
  pieces: 45,
  mg: null,
  certain: true,
  anyOf: null,
  among: 1,
  someCertain: false,
  at: '2026-11-25T05:00:00.000Z',
  until: null,
  channel: 'dispatch',
  ...more,
});

describe('the contact list', () => {
  it('puts the school and the food bank on top and marks what was left unattended', () => {
    const list = contactList(
      [
        d('cafe'),
        d('cafe-at-dawn', { unattended: true }),
        d('school', { vulnerable: true, pieces: 10 }),
        d('food bank', { vulnerable: true, pieces: 16 }),
      ],
      [],
    );
    expect(list.map((e) => e.party)).toEqual(['food bank', 'school', 'cafe', 'cafe-at-dawn']);
    expect(list.find((e) => e.party === 'cafe-at-dawn')?.why).toContain('nobody present');
  });
  it('puts those who surely have it before those who may, and the latest delivery before older ones', () => {
    const list = contactList([d('may', { certain: false, pieces: 900 }), d('older', { at: '2026-11-20T05:00:00.000Z' }), d('latest')], []);
    expect(list.map((e) => e.party)).toEqual(['latest', 'older', 'may']);
  });
  it('adds up what one customer had of several lots and says when a number is missing', () => {
    const [only] = contactList(
      [d('cafe'), d('cafe', { lot: 'm', pieces: null })],
      [{ party: 'cafe', answer: 'told', piecesHeld: 3, said: null, at: '2026-11-25T14:10:00.000Z' }],
    );
    expect(only).toMatchObject({ pieces: 45, piecesUnknown: true, reached: true, order: 1 });
  });

  it('asks to ring again who was told before more of it went there', () => {
    const told = { party: 'cafe', answer: 'told', piecesHeld: null, said: null, at: '2026-11-25T14:10:00.000Z' } as const;
    const later = [d('cafe'), d('cafe', { at: '2026-11-25T13:00:00.000Z', until: '2026-11-25T15:00:00.000Z' })];
    expect(contactList(later, [told])[0]).toMatchObject({ reached: false, why: expect.stringMatching(/to be rung again$/) });
    expect(contactList(later, [told, { ...told, at: '2026-11-25T15:10:00.000Z' }])[0]).toMatchObject({ reached: true });
  });

  it('has what went as either of two lots once: 6 pieces are 6, and surely there where both lots are in scope', () => {
    const either = { anyOf: 'g', among: 2, pieces: 6 };
    const both = [d('cafe', { ...either, lot: 'a', code: 'T1' }), d('cafe', { ...either, lot: 'b', code: 'T2' })];
    const [only] = contactList(both, []);
    expect(only).toMatchObject({ pieces: 6, certain: true, why: 'it certainly went there' });
    expect(only?.lines).toEqual([
      expect.objectContaining({ lots: ['a', 'b'], name: 'Tartlet', code: 'T1 or T2', pieces: 6, certain: true }),
    ]);
    expect(contactList([...both].reverse(), [])[0]?.lines).toEqual(only?.lines);
  });
  it('says that it may have gone there where one of the lots is not in scope, or may not hold it', () => {
    const either = { anyOf: 'g', among: 2, pieces: 6 };
    expect(contactList([d('cafe', either)], [])[0]).toMatchObject({ pieces: 6, certain: false });
    const both = [d('cafe', { ...either, lot: 'a' }), d('cafe', { ...either, lot: 'b', certain: false })];
    expect(contactList(both, [])[0]).toMatchObject({ pieces: 6, certain: false });
  });
});
