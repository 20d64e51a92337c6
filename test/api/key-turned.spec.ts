import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { readBundle, verifyBundle, type Bundle } from '@bakehouse/ledger';
import { bundleCommand } from '../../apps/api/src/bundle.command.js';
import { demandSealKeyOf, SealKey } from '../../apps/api/src/modules/seals/index.js';
import { newKeyCommand } from '../../apps/api/src/new-key.command.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { originOf } from '../../apps/api/src/platform/ledger/index.js';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { sealCommand } from '../../apps/api/src/seal.command.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { roomReading } from '../support/payloads.js';
import { writeVerifiers } from '../support/verifiers.js';
import { House, type Caller } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
let t: TestApp;
let house: House;
let baker: Caller;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'key-turned-'));
  writeVerifiers(folder);
  t = await startTestApp({ env: { DATA_DIR: folder } });
  house = await House.found(t);
  baker = await house.signedOn('Bo Baker', ['baker', 'administrator']);
  await record(3);
});
afterAll(async () => {
  await t.close();
  rmSync(folder, { recursive: true });
});

const config = () => ({ ...readConfig({}), DATA_DIR: folder, SEAL_KEY: undefined, SEALS_DIR: undefined, WITNESSES: undefined });
const file = (name: string): string => path.join(folder, 'keys', name);
const record = (n: number) =>
  baker
    .post(
      `/sites/${house.site}/entries`,
      Array.from({ length: n }, () => house.entry({ kind: 'reading-taken', payload: roomReading(house.site) })),
    )
    .expect(200);
const keyHere = () => new SealKey(config()).verifierKey(originOf(house.site));
const seal = async () =>
  (await baker.get(`/sites/${house.site}/seal`).expect(200)).body as { size: number; verifierKey: string; note: string };
const turn = async () => {
  const said: string[] = [];
  expect(await newKeyCommand(t.database, { config: config(), words: ['--new-key'], say: (line) => said.push(line) }, clock)).toBe(0);
  return said.join('\n');
};
const verify = async () => {
  const said: string[] = [];
  const code = await ledgerCommand(t.database, { words: ['verify'], say: (line) => said.push(line), config: config() });
  return { code, said: said.join('\n') };
};
const bundle = async (): Promise<{ bundle: Bundle; at: string }> => {
  const out = path.join(folder, 'out');
  await bundleCommand(t.database, { words: ['--out', out], say: () => undefined, config: config() }, clock, []);
  const read = readBundle(readFileSync(path.join(out, 'bundle.json'), 'utf8'));
  if (!read) throw new Error('no bundle');
  return { bundle: read, at: path.join(out, 'bundle.json') };
};

/** What the two programs that an outsider may have say: ours, built, and the one that shares no code with it. */
function outside(at: string, held: readonly string[]): readonly { readonly ok: boolean }[] {
  const words = [at, '--json', ...held.flatMap((text) => ['--had', text])];
  return [
    [process.execPath, path.join(folder, 'verify.mjs')],
    ['python3', path.join(import.meta.dirname, '../reference/verify_bundle.py')],
  ].map(([program = '', script = '']) => JSON.parse(spawnSync(program, [script, ...words], { encoding: 'utf8' }).stdout));
}

describe('a key for seals that is handed over', () => {
  it('is followed by both checkers from the key and the seals before, by the service and by verify', async () => {
    const first = await seal();
    const before = await keyHere();
    expect(first.verifierKey).toBe(before);
    await record(2);
    const said = await turn();
    expect(existsSync(file('seal.key.next'))).toBe(false);
    const after = await keyHere();
    expect(after).not.toBe(before);
    expect(said).toContain(after);
    await record(2);
    expect(await seal()).toMatchObject({ size: first.size + 4, verifierKey: after });
    await turn();
    await record(1);

    const { bundle: made, at } = await bundle();
    expect(made.format).toBe('ledger-bundle/2');
    const held = [before, first.note.trim(), after, await keyHere()];
    const found = verifyBundle(made, held);
    expect(found).toMatchObject({
      ok: true,
      held: [{ finding: 'is-a-key-here' }, { finding: 'is-a-seal-here' }, {}, { finding: 'is-a-key-here' }],
    });
    const site = found.books.find(({ origin }) => origin === originOf(house.site));
    expect(site?.keys).toEqual([expect.objectContaining({ finding: 'good' }), expect.objectContaining({ finding: 'good' })]);
    expect(outside(at, held).map(({ ok }) => ok)).toEqual([true, true]);
    expect(await verify()).toMatchObject({ code: 0 });
  });

  it('leaves no seal that the key before could still make', async () => {
    const old = readFileSync(file('seal.key'), 'utf8');
    await turn();
    const now = readFileSync(file('seal.key'), 'utf8');
    await record(1);
    const { size } = await seal();
    await record(1);
    writeFileSync(file('seal.key'), old);
    await baker.get(`/sites/${house.site}/seal`).expect(500);
    const said: string[] = [];
    expect(await sealCommand(t.database, { config: config(), words: [], say: (line) => said.push(line) }, clock)).toBe(1);
    expect(said.join('\n')).toMatch(/FAILED .*not the one that the last statement names/);
    await expect(connected(t.database.serviceUrl, (client) => demandSealKeyOf(client, config()))).rejects.toThrow(
      /key that came with the last change/,
    );
    writeFileSync(file('seal.key'), now);
    expect((await seal()).size).toBe(size + 1);
  });
});
