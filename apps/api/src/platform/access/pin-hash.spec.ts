import { describe, expect, it } from '@jest/globals';
import { PinHash, type AskedFrom } from './pin-hash.js';

const tablet: AskedFrom = { at: 'device', place: 'table' };
const stranger = (place: number): AskedFrom => ({ at: 'elsewhere', place: `network ${place}` });
const tooMany = { problem: { problem: 'unavailable' }, headers: { 'retry-after': '5' } };

describe('hashes of PINs', () => {
  it('fit their own PIN and no other, and nothing fits where there is none', async () => {
    const hashes = new PinHash();
    const stored = await hashes.hash('739158', tablet);
    expect(stored).toContain('$argon2id$v=19$m=19456,t=2,p=1$'); // the least that OWASP asks for, from memory
    const tries = [hashes.fits(stored, '739158', tablet), hashes.fits(stored, '739159', tablet), hashes.fits(undefined, '739158', tablet)];
    expect(await Promise.all(tries)).toEqual([true, false, false]);
  });

  it('of one place come one after the other; beyond eight that wait it is told to come again, and none that waits is lost', async () => {
    const hashes = new PinHash();
    const asked = Array.from({ length: 10 }, () => hashes.hash('739158', stranger(1)));
    await expect(asked.pop()).rejects.toMatchObject(tooMany);
    expect(new Set(await Promise.all(asked)).size).toBe(9);
  });

  it('a stranger who asks often waits for themselves: another comes in between, and a tablet at once', async () => {
    const hashes = new PinHash();
    const done: string[] = [];
    const note = (who: string, asked: Promise<string>): Promise<unknown> => asked.then(() => done.push(who));
    const flood = Array.from({ length: 8 }, () => note('flood', hashes.hash('739158', stranger(1))));
    await Promise.all([...flood, note('other', hashes.hash('739158', stranger(2))), note('tablet', hashes.hash('739158', tablet))]);
    expect(done.indexOf('tablet')).toBeLessThan(5); // at the end of the line it would be eighth
    expect(done.indexOf('other')).toBeLessThan(6);
  });

  it('of strangers from ever more networks are bounded as well; a tablet still gets its turn', async () => {
    const hashes = new PinHash();
    const many = Array.from({ length: 65 }, (_, i) => hashes.hash('739158', stranger(i)));
    await expect(many.pop()).rejects.toMatchObject(tooMany);
    expect(await hashes.hash('739158', tablet)).toContain('$argon2id$');
    expect(await Promise.all(many)).toHaveLength(64);
  });
});
