import { describe, expect, it } from '@jest/globals';
import { toClear } from './to-clear.js';

const onCounter = [{ site: 's', siteName: 'Harbour Steps', since: '2026-11-25T06:00:00.000Z', pieces: 8 }];
const lot = (id: string, shelves: Parameters<typeof toClear>[0]['trace']['onHand'][number]['shelves']) => ({
  ...{
    lot: id,
    name: 'bap',
    code: id,
    site: 'Mill Lane',
    inStore: null,
    amount: 8,
    measure: 'pieces' as const,
    by: null,
    concerns: [],
    pastUseBy: null,
  },
  shelves,
});
type Case = Parameters<typeof toClear>[0];
const of = (onHand: Case['trace']['onHand'], decisions: Case['decisions'] = [], practice = false) => {
  const none = {
    suspects: [],
    cases: [],
    lots: [],
    hidden: [],
    alike: [],
    ends: [],
    contacts: [],
    counter: [],
    dividedInto: null,
    doesNotAddUp: [],
    suspectBalances: [],
  };
  const heat = { steps: [], note: null };
  const said = {
    direction: 'forward' as const,
    hazard: null,
    rule: '',
    asOf: [],
    scopeHash: '',
    alikeHidden: 0,
    contactsShown: true,
    caution: '',
  };
  return toClear({ trace: { ...none, ...said, heat, onHand }, practice, decisions });
};

describe('what has to come off the house’s own shelves', () => {
  it('is each place with how many are there, and nothing that stands in no shop', () => {
    expect(of([lot('A', { inShop: null, onCounter }), lot('B', { inShop: null, onCounter: [] })])).toEqual([
      { lot: 'A', name: 'bap', code: 'A', places: ['on the counter at Harbour Steps: 8 pieces, take them off'] },
    ]);
  });

  it('says first that it is a practice, and orders nothing', () => {
    expect(of([lot('A', { inShop: null, onCounter })], [], true).map((c) => c.places)).toEqual([
      ['practice: on the counter at Harbour Steps: 8 pieces, would be taken off'],
    ]);
  });

  it('leaves out what was freed in the case', () => {
    const freed = {
      decision: 'freed' as const,
      covers: 'this-alone' as const,
      pieces: null,
      mg: null,
      at: '2026-11-25T09:00:00.000Z',
      lot: 'A',
    };
    expect(of([lot('A', { inShop: null, onCounter })], [freed])).toEqual([]);
  });
});
