import { describe, expect, it } from '@jest/globals';
import { comesOff } from './comes-off.js';

type Trace = Parameters<typeof comesOff>[0];
const concern: Trace['onHand'][number]['concerns'][number] = {
  ...{ id: 'h', type: 'held', what: 'smells', since: '2026-11-25T06:00:00.000Z', from: 'L', fromName: 'bap' },
  ...{ by: null, certain: true, part: null },
};
const lot = (id: string, of: Partial<Trace['onHand'][number]> = {}): Trace['onHand'][number] => ({
  ...{ lot: id, name: 'bap', code: id, site: 'Mill Lane', inStore: null, amount: 8, measure: 'pieces', by: null, concerns: [] },
  ...{ pastUseBy: null, shelves: { inShop: null, onCounter: [] } },
  ...of,
});
const aCase = (of: Partial<Trace['cases'][number]>): Trace['cases'][number] => ({
  ...{ id: 'c', hazard: 'physical', hazardName: 'glass', practice: false, openedAt: '2026-11-25T07:00:00.000Z', closedAt: null, told: 0 },
  ...of,
});
const closedAt = '2026-11-25T08:00:00.000Z';
const off = (of: Partial<Trace>, recall?: Parameters<typeof comesOff>[1]) => {
  const says = comesOff({ suspects: ['L'], cases: [], onHand: [lot('L'), lot('M')], ...of }, recall);
  return ['L', 'M'].filter(says);
};

const real = { practice: false };

describe('what has to come off the shelves', () => {
  it('is nothing of a lot that nothing speaks against', () => {
    expect(off({})).toEqual([]);
    expect(off({ cases: [aCase({ practice: true }), aCase({ closedAt })] })).toEqual([]);
  });
  it('is a lot on hold, one past its use-by date, and one that is in an open case', () => {
    expect(off({ onHand: [lot('L'), lot('M', { concerns: [concern] })] })).toEqual(['M']);
    expect(off({ onHand: [lot('L'), lot('M', { pastUseBy: '2026-11-24' })] })).toEqual(['M']);
    expect(off({ cases: [aCase({})] })).toEqual(['L']);
  });
  it('is everything of an open case, on hold or not, but what was freed in it; of a closed one what is on hold still', () => {
    const freed = { lot: 'M', decision: 'freed', covers: 'this-alone', pieces: null, mg: null, at: closedAt } as const;
    expect(off({}, { ...real, closedAt: null, decisions: [] })).toEqual(['L', 'M']);
    expect(off({}, { ...real, closedAt: null, decisions: [freed] })).toEqual(['L']);
    expect(off({ onHand: [lot('L'), lot('M', { concerns: [concern] })] }, { ...real, closedAt: null, decisions: [freed] })).toEqual([
      'L',
      'M',
    ]);
    expect(off({}, { ...real, closedAt, decisions: [] })).toEqual([]);
  });
  it('only would in a practice, and says so, but for what has to come off whatever is practised', () => {
    const says = comesOff(
      { suspects: ['L'], cases: [], onHand: [lot('L'), lot('M', { concerns: [concern] })] },
      { practice: true, closedAt: null, decisions: [] },
    );
    expect(['L', 'M'].map(says)).toEqual(['practice', true]);
  });
});
