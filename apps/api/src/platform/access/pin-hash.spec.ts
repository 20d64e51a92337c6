import { describe, expect, it } from '@jest/globals';
import { PinHash } from './pin-hash.js';

describe('hashes of PINs', () => {
  it('fit their own PIN and no other, and nothing fits where there is none', async () => {
    const hashes = new PinHash();
    const stored = await hashes.hash('739158');
    expect(await Promise.all([hashes.fits(stored, '739158'), hashes.fits(stored, '739159'), hashes.fits(undefined, '739158')])).toEqual([
      true,
      false,
      false,
    ]);
  });

  it('are made two at a time; beyond 64 that wait one is told to come again, and none that waits is lost', async () => {
    const hashes = new PinHash();
    const asked = Array.from({ length: 67 }, () => hashes.hash('739158'));
    await expect(asked.pop()).rejects.toMatchObject({ problem: { problem: 'unavailable' }, headers: { 'retry-after': '5' } });
    expect(new Set(await Promise.all(asked)).size).toBe(66);
  });
});
