import { describe, expect, it } from '@jest/globals';
import { permissionsFrom } from './permissions.js';

const [mill, quay] = ['00000000-0000-4000-8000-000000000001', '00000000-0000-4000-8000-000000000002'];
const may = (...args: Parameters<typeof permissionsFrom>): string[] => [...permissionsFrom(...args)].sort();

describe('what roles allow', () => {
  it('is the union of the roles at every site and those at this one', () => {
    const held = [
      { role: 'viewer', site: null },
      { role: 'baker', site: mill },
    ] as const;
    expect(may(held, mill, 'pin')).toEqual(['decide.goods', 'record', 'view']);
    expect(may(held, quay, 'pin')).toEqual(['view']);
  });

  it('lets a person who may view one site view what belongs to all, and do no more with it', () => {
    expect(may([{ role: 'manager', site: mill }], null, 'pin')).toEqual(['view']);
    expect(may([{ role: 'inspector', site: mill }], null, 'pin')).toEqual(['inspect']);
    expect(may([{ role: 'food-safety-lead', site: null }], null, 'pin')).toContain('manage.plans');
  });

  it('leaves looking and recording to a tapped name', () => {
    const owner = [
      { role: 'manager', site: null },
      { role: 'food-safety-lead', site: null },
      { role: 'administrator', site: null },
    ] as const;
    expect(may(owner, mill, 'tapped')).toEqual(['decide.goods', 'record', 'view']);
    expect(may([{ role: 'inspector', site: mill }], mill, 'tapped')).toEqual([]);
  });

  it('is nothing without a role', () => {
    expect(may([], mill, 'pin')).toEqual([]);
    expect(may([], null, 'pin')).toEqual([]);
  });
});
