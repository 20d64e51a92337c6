import { chmodSync, mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { checkpointText, signNote } from '@bakehouse/ledger';
import { originOf } from '../../platform/ledger/index.js';
import { demandSealKey } from './usable-key.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'seal-key-'));
});
afterEach(() => rmSync(folder, { recursive: true }));
const file = () => path.join(folder, 'keys', 'seal.key');
const put = (text: string, mode = 0o600): void => {
  mkdirSync(path.dirname(file()), { recursive: true });
  writeFileSync(file(), text);
  chmodSync(file(), mode);
};
const good = `${Buffer.alloc(32, 7).toString('base64')}\n`;
const book = '0197a000-0000-7000-8000-000000000001';
const sealWith = (fill: number): string =>
  signNote(checkpointText({ origin: originOf(book), size: 0, root: new Uint8Array(32) }), originOf(book), new Uint8Array(32).fill(fill));
const known = (sealed: boolean | string) => ({
  seals: () => Promise.resolve(sealed === false ? [] : [{ book, note: sealed === true ? sealWith(7) : sealed }]),
  said: () => Promise.resolve([]),
});
const demand = (sealed: boolean) => demandSealKey({ DATA_DIR: folder, SEAL_KEY: undefined }, known(sealed));

describe('a start', () => {
  it('makes a key where nothing was sealed yet, and takes one that is there', async () => {
    await demand(false);
    expect(statSync(file()).size).toBe(45);
    put(good);
    await demand(true);
  });

  it.each([
    ['can be read by others', () => put(good, 0o644), /can be read by others.*SEAL_KEY/],
    ['is too short', () => put('c2hvcnQ=\n'), /holds no key of 32 bytes.*SEAL_KEY/],
    ['is a folder', () => mkdirSync(file(), { recursive: true, mode: 0o700 }), /cannot be used.*SEAL_KEY/],
    [
      'has no folder that can be written in',
      () => writeFileSync(path.dirname(file()), ''),
      /Let the account that runs the service write in/,
    ],
  ])('with a key that %s is refused with what to do', async (_what, prepare, says) => {
    prepare();
    await expect(demand(false)).rejects.toThrow(says);
  });

  it('without the key that signed what is there already is refused, and no other key is made in its place', async () => {
    await expect(demand(true)).rejects.toThrow(/there are seals already, and the key that signed them is not here/);
    expect(() => statSync(file())).toThrow(/ENOENT/);
    await demandSealKey({ DATA_DIR: folder, SEAL_KEY: good.trim() }, known(true));
  });

  it('with a key that made none of the seals is refused; one whose seal was garbled is not, since that is for a verification', async () => {
    put(good);
    await expect(demandSealKey({ DATA_DIR: folder, SEAL_KEY: undefined }, known(sealWith(8)))).rejects.toThrow(
      /no seal here is signed with it.*--key-lost/,
    );
    await demandSealKey({ DATA_DIR: folder, SEAL_KEY: undefined }, known('garbled'));
  });
});
