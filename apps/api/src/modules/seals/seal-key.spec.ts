import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { toHex } from '@bakehouse/ledger';
import { SealKey } from './seal-key.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'seal-key-'));
});
afterEach(() => rmSync(folder, { recursive: true }));
const file = () => path.join(folder, 'keys', 'seal.key');
const keyOf = (SEAL_KEY?: string) => new SealKey({ DATA_DIR: folder, SEAL_KEY });

describe('the key that seals are signed with', () => {
  it('is made once, kept for its owner alone, and found again', async () => {
    const first = await keyOf().seed();
    expect(first).toHaveLength(32);
    expect(statSync(file()).mode & 0o777).toBe(0o600);
    expect(statSync(path.dirname(file())).mode & 0o777).toBe(0o700);
    expect(readdirSync(path.dirname(file()))).toEqual(['seal.key']);
    expect(toHex(await keyOf().seed())).toBe(toHex(first));
  });

  it('is the same for all who look for it at once', async () => {
    const seeds = await Promise.all(Array.from({ length: 8 }, () => keyOf().seed()));
    expect(new Set(seeds.map(toHex)).size).toBe(1);
    expect(readdirSync(path.dirname(file()))).toEqual(['seal.key']);
  });

  it('may come from the settings, and then no file is made', async () => {
    // RFC 8032 §7.1, TEST 1
    const secret = '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60';
    const key = keyOf(Buffer.from(secret, 'hex').toString('base64'));
    expect(toHex(await key.seed())).toBe(secret);
    const verifier = await key.verifierKey('here.example');
    expect(Buffer.from(verifier.split('+').slice(2).join('+'), 'base64').toString('hex')).toBe(
      '01d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    );
    expect(readdirSync(folder)).toEqual([]);
  });

  it('is not used where others may read it, or where it is no key; and is read again once that is corrected', async () => {
    await keyOf().seed();
    const kept = readFileSync(file());
    const key = keyOf();
    chmodSync(file(), 0o640);
    await expect(key.seed()).rejects.toThrow(/can be read by others/);
    chmodSync(file(), 0o600);
    writeFileSync(file(), 'c2hvcnQ=');
    await expect(key.seed()).rejects.toThrow(/holds no key/);
    writeFileSync(file(), kept);
    expect(toHex(await key.seed())).toBe(Buffer.from(kept.toString(), 'base64').toString('hex'));
  });
});
