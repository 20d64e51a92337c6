import { describe, expect, it } from '@jest/globals';
import { containsByFormula } from './by-formula.js';
import { lookupOf } from '../lookup/lookup.js';
import { materials, row } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

describe('what a lot contains by its formula', () => {
  const lookup = () => lookupOf(oneBatch().book.snapshot(), row('06:00'), 'Europe/London');

  it('is what its lines contain, and never nothing where one of them was not checked', () => {
    const said = containsByFormula(lookup(), { material: materials.tin, name: 'white tin 800 g' });
    expect(said?.contains).toContain('wheat');
    expect(said?.notKnown.length === 0).toBe(said?.checkedSince !== null);
  });

  it('is nothing to say of what is bought', () => {
    expect(containsByFormula(lookup(), { material: materials.flour, name: 'flour' })).toBeNull();
  });

  it('is what it says again once a formula that was retired is approved anew', () => {
    const { at, snapshot } = lookup();
    const formulaRetired = snapshot.formulaVersion.map(({ formula, id, since }) => ({
      ...{ id, formula },
      at: new Date(Date.parse(since) - 1).toISOString(),
    }));
    const said = containsByFormula({ at, snapshot: { ...snapshot, formulaRetired } }, { material: materials.tin, name: 'tin' });
    expect(said?.contains).toContain('wheat');
  });

  it('is nothing to say of what no formula makes any more', () => {
    const all = lookup();
    const formulaRetired = all.snapshot.formulaVersion.map(({ formula, id }) => ({ id, formula, at: all.at }));
    expect(
      containsByFormula({ at: all.at, snapshot: { ...all.snapshot, formulaRetired } }, { material: materials.tin, name: 'tin' }),
    ).toBeNull();
  });
});
