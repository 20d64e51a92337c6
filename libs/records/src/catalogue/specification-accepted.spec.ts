import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { specificationAccepted } from './specification-accepted.js';
import { WorkingSet } from '../base/working-set.js';
import { specificationAt } from '../control/specification-at.js';
import { House, stamp, testId } from '../../../../test/support/try-kind.js';

const [flour, mill] = [testId(0xc1), testId(0xa1)];
const party = {
  party: mill,
  type: 'supplier' as const,
  name: 'Stone mill',
  contactName: null,
  phone: null,
  email: null,
  address: null,
  vulnerable: false,
  unattended: false,
  since: '2026-01-01T00:00:00.000Z',
};
const house = (): House => new House([{ in: 'party', id: testId(0xa9), row: party }]);
const payload: PayloadFor<'specification-accepted'> = {
  material: flour,
  name: 'Strong white flour',
  type: 'ingredient',
  countedIn: 'mass',
  densityMgPerMl: null,
  storage: 'ambient',
  lifeDays: 180,
  lifeOpenedHours: null,
  contains: ['wheat'],
  mayContain: ['soybeans'],
  checked: { against: 'supplier-specification', on: '2026-10-20' },
  flour: true,
  animalOrigin: false,
  supplier: mill,
};

describe('specification-accepted', () => {
  it('says what a material is and contains from now on', () => {
    const accepted = house().recorded(specificationAccepted, { payload });
    const { against, on } = payload.checked ?? {};
    expect(accepted.rows).toEqual([
      {
        in: 'specification',
        id: accepted.id,
        row: { ...payload, checked: { against, on, by: stamp.person }, since: '2026-11-25T04:40:00.000Z' },
      },
    ]);
  });

  it('may be accepted before anybody checked what it contains, and says so', () => {
    const accepted = house().recorded(specificationAccepted, { payload: { ...payload, checked: null } });
    expect(accepted.rows).toMatchObject([{ row: { checked: null } }]);
  });

  it('of version 1 is read as checked by nobody: what it named counts, what it did not name is unknown', () => {
    const { checked: _checked, ...old } = payload;
    const read = specificationAccepted.upcast?.[1]?.(old);
    expect(read).toMatchObject({ data: { ...old, checked: null } });
  });

  it('takes no allergens and no check of what is made here: they follow from its formulas', () => {
    const dough = { ...payload, type: 'intermediate' as const, flour: false, contains: [], mayContain: [], checked: null };
    expect(house().recorded(specificationAccepted, { payload: dough }).rows).toMatchObject([{ row: { contains: [], checked: null } }]);
    for (const [change, field] of [
      [{ contains: payload.contains }, 'payload.contains'],
      [{ mayContain: payload.mayContain }, 'payload.contains'],
      [{ checked: payload.checked }, 'payload.checked'],
    ] as const)
      expect(house().record(specificationAccepted, { payload: { ...dough, ...change } })).toMatchObject({
        problem: 'unacceptable-value',
        field,
      });
  });

  it('a change is a new specification, and what was in force before stays in force for then', () => {
    const set = new WorkingSet(true);
    const h = house();
    for (const [at, contains] of [
      ['2026-11-01T06:00:00Z', ['wheat']],
      ['2026-11-20T06:00:00Z', ['wheat', 'barley']],
    ] as const) {
      set.apply(
        { entry: testId(1), seq: 1 },
        h.recorded(specificationAccepted, { payload: { ...payload, contains: [...contains] }, at }).rows,
      );
    }
    expect(specificationAt(set, flour, '2026-11-19T23:59:59.999Z')?.contains).toEqual(['wheat']);
    expect(specificationAt(set, flour, '2026-11-20T06:00:00.000Z')?.contains).toEqual(['wheat', 'barley']);
  });

  it('a material stays of its type, also for a correction of a later specification', () => {
    const h = house();
    h.recorded(specificationAccepted, { payload });
    const later = h.recorded(specificationAccepted, { payload, at: '2026-11-25T05:00:00Z' });
    const other = { ...payload, type: 'aid' as const };
    expect(h.record(specificationAccepted, { payload: other })).toMatchObject({ problem: 'unacceptable-value', field: 'payload.type' });
    expect(h.record(specificationAccepted, { payload: other, replaces: later })).toMatchObject({ problem: 'unacceptable-value' });
  });

  it('the only specification of a material may be corrected to another type', () => {
    const h = house();
    const only = h.recorded(specificationAccepted, { payload });
    h.recorded(specificationAccepted, { payload: { ...payload, type: 'aid' }, replaces: only });
    expect(h.row('specification', only.id)?.type).toBe('aid');
  });

  it.each([
    [{ supplier: testId(99) }, 'unknown-party', 'payload.supplier'],
    [{ mayContain: ['wheat'] }, 'malformed', 'payload.mayContain'],
    [{ contains: ['wheat', 'wheat'] }, 'malformed', 'payload.contains'],
    [{ contains: ['gluten'] }, 'malformed', 'payload.contains.0'],
    [{ type: 'product' }, 'malformed', 'payload.flour'],
    [{ countedIn: 'pieces' }, 'malformed', 'payload.flour'],
    [{ densityMgPerMl: 25_000 }, 'malformed', 'payload.densityMgPerMl'],
    [{ lifeDays: 0 }, 'malformed', 'payload.lifeDays'],
    [{ checked: undefined }, 'malformed', 'payload.checked'],
    [{ checked: { against: 'hearsay', on: '2026-11-20' } }, 'malformed', 'payload.checked.against'],
    [{ checked: { against: 'label', on: '2026-11-26' } }, 'unacceptable-value', 'payload.checked.on'],
  ])('refuses %j', (change, problem, field) => {
    expect(house().recordRaw(specificationAccepted, { payload: { ...payload, ...change } })).toMatchObject({ problem, field });
  });
});
