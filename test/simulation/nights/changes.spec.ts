import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { withChanges, type NightAnswer } from '@bakehouse/offline';
import { Versions, type PlainRows } from '../../../apps/api/src/modules/night/versions.js';

const ids = Array.from({ length: 12 }, (_, i) => `row-${String(i).padStart(2, '0')}`);
const rows = fc.uniqueArray(fc.record({ id: fc.constantFrom(...ids), mg: fc.integer({ min: 0, max: 2 }) }), { selector: (r) => r.id });
const night: fc.Arbitrary<PlainRows> = fc
  .dictionary(fc.constantFrom('lot', 'flow', 'hold'), rows)
  .map((all) => Object.fromEntries(Object.entries(all).map(([name, some]) => [name, [...some].sort((a, b) => (a.id < b.id ? -1 : 1))])));
const filled = (all: PlainRows): PlainRows => Object.fromEntries(Object.entries(all).filter(([, some]) => some.length > 0));

const answer = (versions: Versions, now: PlainRows, since: string | undefined, of = 'a house'): NightAnswer => {
  const version = versions.of(now, of);
  const site = { id: 'site', name: 'Mill Lane', zone: 'Europe/London', dayStarts: '00:00' };
  return { site, day: '2026-11-25', asOf: '', sizes: [], version: version.version, ...versions.changes(version, since) };
};

describe('what changed since the night that a device holds', () => {
  it('makes, on top of it, the night as it is now: whatever came, changed or went, however long the device was away', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ night, asks: fc.boolean() }), { minLength: 1, maxLength: 12 }), (nights) => {
        const versions = new Versions();
        let held: Parameters<typeof withChanges>[0] = null;
        for (const { night: now, asks } of nights) {
          const came: NightAnswer = answer(versions, now, asks ? (held?.version ?? undefined) : undefined);
          if (!asks) continue; // another device asked
          expect(came.since).toBe(held?.version ?? null);
          held = withChanges(held, { changed: true, value: came, tag: null }) ?? null;
          expect(filled(held?.rows ?? {})).toEqual(filled(now));
        }
      }),
    );
  });

  it('names rows that are the same the same, and others otherwise', () => {
    fc.assert(
      fc.property(night, night, (one, other) => {
        const same = JSON.stringify(one) === JSON.stringify(other);
        expect(new Versions().of(one, 'a house').version === new Versions().of(other, 'a house').version).toBe(same);
      }),
    );
  });

  it('is everything where the version is not known here, and fits nothing but what it is about', () => {
    const versions = new Versions();
    const first = answer(versions, { lot: [{ id: 'a' }] }, undefined);
    expect(answer(new Versions(), { lot: [{ id: 'b' }] }, first.version)).toMatchObject({
      since: null,
      rows: { lot: [{ id: 'b' }] },
      gone: {},
    });
    expect(answer(versions, { lot: [{ id: 'b' }] }, first.version, 'another house')).toMatchObject({ since: null, gone: {} });
    const next = answer(versions, { lot: [{ id: 'b' }] }, first.version);
    expect(next).toMatchObject({ since: first.version, rows: { lot: [{ id: 'b' }] }, gone: { lot: ['a'] } });
    expect(withChanges({ version: 'another', rows: {} }, { changed: true, value: next, tag: null })).toBeUndefined();
  });
});
