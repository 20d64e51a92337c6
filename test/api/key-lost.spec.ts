import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { signedHeads } from '@bakehouse/contracts';
import { publicKeyOf, verifierKey } from '@bakehouse/ledger';
import { goesOn } from '@bakehouse/offline';
import * as z from 'zod';
import { bundleCommand } from '../../apps/api/src/bundle.command.js';
import { doctorCommand } from '../../apps/api/src/doctor.command.js';
import { demandSealKeyOf, turnKey } from '../../apps/api/src/modules/seals/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { sealCommand } from '../../apps/api/src/seal.command.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, type Caller } from '../support/people.js';
import { writeVerifiers } from '../support/verifiers.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
const seedOf = (fill: number): string => Buffer.alloc(32, fill).toString('base64');
let t: TestApp;
let house: House;
let baker: Caller;
let folder: string;
const file = () => path.join(folder, 'keys', 'seal.key');

/** A house whose key is in a file, or in the settings as in the shape of a server. */
async function begun(SEAL_KEY?: string): Promise<void> {
  t = await startTestApp({ env: { DATA_DIR: folder, ...(SEAL_KEY === undefined ? {} : { SEAL_KEY }) } });
  house = await House.found(t);
  baker = await house.signedOn('Bo Baker', ['baker', 'administrator']);
  await house.recordReadings(3, baker);
}
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'key-lost-'));
});
afterEach(async () => {
  await t.close();
  rmSync(folder, { recursive: true });
});

const configOf = (SEAL_KEY?: string) => ({ ...readConfig({}), DATA_DIR: folder, SEAL_KEY, SEALS_DIR: undefined, WITNESSES: undefined });
type Command = (say: (line: string) => void, config: ReturnType<typeof configOf>) => Promise<number>;
async function said(command: Command, SEAL_KEY?: string): Promise<{ readonly code: number; readonly said: string }> {
  const lines: string[] = [];
  const code = await command((line) => lines.push(line), configOf(SEAL_KEY));
  return { code, said: lines.join('\n') };
}
const sealWith =
  (...words: string[]): Command =>
  (say, config) =>
    sealCommand(t.database, { config, words, say }, clock);
const verify: Command = (say, config) => ledgerCommand(t.database, { words: ['verify'], say, config });
const doctor: Command = (say, config) => doctorCommand(t.database, { config, say }, clock);
const bundle: Command = (say, config) => bundleCommand(t.database, { words: ['--out', path.join(folder, 'out')], say, config }, clock, []);
const start = (SEAL_KEY?: string) => connected(t.database.serviceUrl, (client) => demandSealKeyOf(client, configOf(SEAL_KEY)));
interface Seal {
  readonly size: number;
  readonly verifierKey: string;
  readonly note: string;
}
const sealOfSite = async () => (await baker.get(`/sites/${house.site}/seal`).expect(200)).body as Seal;
const head = async (from = 0) => {
  const [site] = signedHeads.parse((await baker.get(`/sites/${house.site}/signed-heads?site=${from}`).expect(200)).body).heads;
  if (!site) throw new Error('no head');
  return site;
};

const found = z.object({ finding: z.string() });
const bundleReport = z.object({ ok: z.boolean(), held: z.array(found), books: z.array(z.object({ keys: z.array(found) })) });
/** What both checkers say of the bundle, to somebody who has this text from before. */
function outside(had: string) {
  const words = [path.join(folder, 'out/bundle.json'), '--had', had];
  return [
    [process.execPath, path.join(folder, 'verify.mjs')],
    ['python3', path.join(import.meta.dirname, '../reference/verify_bundle.py')],
  ].map(([program = '', script = '']) => {
    const [plain, json] = [[], ['--json']].map((more) => spawnSync(program, [script, ...words, ...more], { encoding: 'utf8' }));
    return { code: json?.status, said: plain?.stdout, report: bundleReport.parse(JSON.parse(json?.stdout ?? '')) };
  });
}

describe('a key for seals that is lost', () => {
  it('is said to be, and nothing after the loss is proven by the key before', async () => {
    writeVerifiers(folder);
    await begun();
    const before = await sealOfSite();
    const seen = await head();
    rmSync(file());
    await expect(start()).rejects.toThrow(/seal --key-lost/);
    expect(existsSync(file())).toBe(false);
    for (const command of [sealWith(), sealWith('--new-key')])
      expect(await said(command)).toEqual({
        code: 1,
        said: expect.stringMatching(/FAILED .*key that signed them is not here[^]*--key-lost/),
      });
    expect(existsSync(file())).toBe(false);
    expect((await said(doctor)).said).toMatch(/WRONG .*key that signed.* is not here.*--key-lost/);

    expect(await said(sealWith('--key-lost'))).toEqual({ code: 2, said: expect.stringMatching(/--old-key.*paper/s) });
    const lost = await said(sealWith('--key-lost', '--old-key', before.verifierKey));
    expect(lost).toEqual({ code: 0, said: expect.stringMatching(/LOST[^]*nothing.*before vouches/i) });
    await start();
    await house.recordReadings(2, baker);
    const after = await sealOfSite();
    expect(after.verifierKey).not.toBe(before.verifierKey);
    expect(lost.said).toContain(after.verifierKey);

    expect(await said(verify)).toEqual({
      code: 0,
      said: expect.stringMatching(/key-lost: the key for seals was said to be lost after \d+ entries/),
    });
    expect(await said(doctor)).toMatchObject({ said: expect.stringMatching(/Mill Lane: the key for seals was lost after \d+ records/) });
    expect(await said(bundle)).toEqual({ code: 0, said: expect.stringMatching(/Mill Lane: THE KEY FOR SEALS WAS LOST after \d+ records/) });
    for (const { code, report, said: words } of outside(before.verifierKey)) {
      expect([code, report.ok, report.held[0]?.finding]).toEqual([1, false, 'is-a-lost-key-here']);
      expect(report.books.map(({ keys }) => keys.map(({ finding }) => finding))).toEqual([['lost'], ['lost']]);
      expect(words).toMatch(/Mill Lane: THE KEY WAS LOST after \d+ entries.*proves nothing of what came later/);
    }
    // What was had before the loss still stands, for what it covers; the new key, got in person, is the book's.
    for (const had of [before.note.trim(), after.verifierKey])
      for (const { code, report } of outside(had)) expect([code, report.ok]).toEqual([0, true]);
    const next = await head(before.size);
    expect(goesOn(seen, next)).toEqual({ ok: false, why: 'another-key' });
  });

  it('is not lost where it is here, and is not said to have been another one', async () => {
    await begun();
    const { verifierKey: key } = await sealOfSite();
    expect(await said(sealWith('--key-lost', '--old-key', key))).toEqual({ code: 1, said: expect.stringMatching(/is here.*--new-key/s) });
    const [name = ''] = key.split('+');
    rmSync(file());
    const stranger = verifierKey(name, publicKeyOf(new Uint8Array(32).fill(9)));
    expect(await said(sealWith('--key-lost', '--old-key', stranger))).toEqual({ code: 1, said: expect.stringMatching(/signed no seal/) });
    expect(await said(sealWith('--key-lost', '--old-key', 'no key'))).toEqual({ code: 2, said: expect.stringMatching(/--old-key/) });
    expect(existsSync(file())).toBe(false);
  });
});

describe('a key for seals in a file', () => {
  it('is still there where its first change was cut off before anything was committed', async () => {
    await begun();
    const { verifierKey: before } = await sealOfSite();
    const kept = readFileSync(file(), 'utf8');
    const tried = connected(t.database.serviceUrl, (client) =>
      turnKey(client, {
        config: configOf(),
        clock,
        hand: () => undefined,
        after: (step) => {
          if (step === 'said') throw new Error('cut off');
        },
      }),
    );
    await expect(tried).rejects.toThrow('cut off');
    expect(readFileSync(file(), 'utf8')).toBe(kept);
    await start();
    expect(await sealOfSite()).toMatchObject({ verifierKey: before });
  });
});

describe('a key for seals in the settings', () => {
  it('is handed over there: the old one seals nothing more, the printed one does', async () => {
    await begun(seedOf(1));
    const before = await sealOfSite();
    const turned = await said(sealWith('--new-key'), seedOf(1));
    expect(turned.code).toBe(0);
    const next = /SEAL_KEY=(\S+)/.exec(turned.said)?.[1];
    expect(existsSync(file())).toBe(false);
    await house.recordReadings(1, baker);
    await baker.get(`/sites/${house.site}/seal`).expect(500); // the service that still runs with the old one
    await expect(start(seedOf(1))).rejects.toThrow(/Put the key that came with the last change into SEAL_KEY/);
    expect((await said(doctor, seedOf(1))).said).toMatch(/WRONG .*the key that is here is not the new one/);
    await start(next);
    expect(await said(sealWith(), next)).toMatchObject({ code: 0 });
    expect(await said(verify, next)).toMatchObject({ code: 0 });
    writeVerifiers(folder);
    await said(bundle, next);
    for (const had of [before.verifierKey, before.note.trim()])
      for (const { code, report } of outside(had)) {
        expect([code, report.ok]).toEqual([0, true]);
        expect(report.books.map(({ keys }) => keys.map(({ finding }) => finding))).toEqual([['good'], ['good']]);
      }
  });

  it('that another stands for is refused at the start, and is said to be lost by a new one that is set there', async () => {
    await begun(seedOf(1));
    const before = await sealOfSite();
    await expect(start(seedOf(2))).rejects.toThrow(/no seal here is signed with it[^]*--key-lost/);
    expect((await said(doctor, seedOf(2))).said).toMatch(/WRONG .*--key-lost/);
    expect(await said(sealWith('--key-lost', '--old-key', before.verifierKey), seedOf(2))).toMatchObject({ code: 0 });
    await start(seedOf(2));
    await expect(start(seedOf(1))).rejects.toThrow(/An earlier key is not used any more/);
    await house.recordReadings(1, baker);
    expect(await said(sealWith(), seedOf(2))).toMatchObject({ code: 0 });
    expect(await said(verify, seedOf(2))).toEqual({ code: 0, said: expect.stringMatching(/key-lost/) });
    // A second loss needs no paper: the statement names the key.
    expect(await said(sealWith('--key-lost'), seedOf(3))).toMatchObject({ code: 0 });
    await start(seedOf(3));
    // A key of before is never taken again.
    expect(await said(sealWith('--key-lost'), seedOf(2))).toMatchObject({ code: 1 });
  });
});
