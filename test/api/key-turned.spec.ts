import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { signedHeads } from '@bakehouse/contracts';
import { readBundle, verifyBundle, type Bundle } from '@bakehouse/ledger';
import { goesOn } from '@bakehouse/offline';
import type { Client } from 'pg';
import { bundleCommand } from '../../apps/api/src/bundle.command.js';
import { demandSealKeyOf, SealKey, sealNow, turnKey, turnSteps } from '../../apps/api/src/modules/seals/index.js';
import { newKeyCommand } from '../../apps/api/src/new-key.command.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { originOf } from '../../apps/api/src/platform/ledger/index.js';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { sealCommand } from '../../apps/api/src/seal.command.js';
import { startTestApp, type TestApp } from '../support/app.js';
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
const record = (n: number) => house.recordReadings(n, baker);
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

/** Until another connection waits for what this one holds. */
async function waitingFor(holder: Client): Promise<void> {
  const waits =
    "SELECT count(*)::int AS n FROM pg_locks WHERE locktype = 'advisory' AND NOT granted AND database = (SELECT oid FROM pg_database WHERE datname = current_database())";
  for (;;) if ((await holder.query<{ n: number }>(waits)).rows[0]?.n === 1) return;
}

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

  it.each(turnSteps.flatMap((step) => (['start', 'seal'] as const).map((first) => [step, first] as const)))(
    'that was cut off after the step %s is the old one or the new one, whole, once a %s comes next',
    async (step, first) => {
      await record(1);
      const before = await keyHere();
      const tried = connected(t.database.serviceUrl, (client) =>
        turnKey(client, {
          config: config(),
          clock,
          hand: () => undefined,
          after: (done) => {
            if (done === step) throw new Error(`cut off after ${done}`);
          },
        }),
      );
      await expect(tried).rejects.toThrow(`cut off after ${step}`);
      const said = step === 'committed' || step === 'ended';
      expect(existsSync(file('seal.key.next'))).toBe(step !== 'ended');
      if (first === 'start') await connected(t.database.serviceUrl, (client) => demandSealKeyOf(client, config()));
      await record(1);
      const { verifierKey } = await seal();
      expect(verifierKey === before).toBe(!said);
      await connected(t.database.serviceUrl, (client) => demandSealKeyOf(client, config()));
      expect(existsSync(file('seal.key.next'))).toBe(false);
      expect(await keyHere()).toBe(verifierKey);
      const { bundle: made } = await bundle();
      expect(verifyBundle(made, [before, verifierKey]).ok).toBe(true);
      expect((await verify()).code).toBe(0);
    },
  );

  it('waits for those who are making a seal', async () => {
    const order: string[] = [];
    await connected(t.database.serviceUrl, (sealer) =>
      connected(t.database.serviceUrl, async (turner) => {
        const book = { organisation: house.organisation, id: house.site };
        const before = await keyHere();
        await record(1);
        await sealer.query('BEGIN');
        await sealer.query("SELECT set_config('app.organisation', $1, true)", [house.organisation]);
        await sealNow(sealer, book, new SealKey(config()), clock.now().toISOString());
        const turned = turnKey(turner, { config: config(), clock, hand: () => undefined }).then(() => order.push('turned'));
        await waitingFor(sealer);
        expect(await keyHere()).toBe(before);
        order.push('sealed');
        await sealer.query('COMMIT');
        await turned;
        expect(order).toEqual(['sealed', 'turned']);
        expect((await verify()).code).toBe(0);
      }),
    );
  });

  it('is followed by a tablet that saw the key before, over the real route', async () => {
    const heads = async (query = '') =>
      signedHeads.parse((await baker.get(`/sites/${house.site}/signed-heads${query}`).expect(200)).body).heads;
    const [before] = await heads();
    if (!before) throw new Error('no head');
    await turn();
    await record(1);
    const [after] = await heads(`?site=${before.size}`);
    if (!after) throw new Error('no head');
    expect(after.verifierKey).not.toBe(before.verifierKey);
    expect(goesOn(before, after)).toEqual({ ok: true });
    expect(goesOn(before, { ...after, keys: after.keys.slice(0, -1) })).toEqual({ ok: false, why: 'another-key' });
  });

  it.each([
    [
      'a letter of it',
      "note = replace(note, 'key-handover/1', 'key-handover/2')",
      /key-change-forged: statement 0 about the keys: it cannot be read/,
    ],
    ['its size', 'size = size + 1', /key-change-forged: statement 0 about the keys: it is about \d+ entries, and \d+ stands beside it/],
    ['its signature', "note = left(note, -6) || 'AAA==' || E'\\n'", /key-change-forged: statement 0 about the keys: /],
    ['its place', 'turn = 1000', /key-change-forged: a statement about the keys is gone before number/],
  ])('with %s changed by the owner of the database is named by verify', async (_what, change, found) => {
    await connected(t.database.ownerUrl, async (owner) => {
      await owner.query("SET session_replication_role = 'replica'");
      await owner.query('CREATE TABLE IF NOT EXISTS before AS SELECT * FROM key_change');
      await owner.query(`UPDATE key_change SET ${change} WHERE book = $1 AND turn = 0`, [house.site]);
      const { code, said } = await verify();
      await owner.query('DELETE FROM key_change; INSERT INTO key_change SELECT * FROM before; DROP TABLE before');
      expect(said).toMatch(found);
      expect(code).toBe(2);
    });
  });

  it('is added to and read by the service, and never changed', async () => {
    await connected(t.database.serviceUrl, async (service) => {
      for (const sql of ['UPDATE key_change SET size = 0', 'DELETE FROM key_change'])
        await expect(service.query(sql)).rejects.toThrow(/permission denied/);
    });
    await connected(t.database.ownerUrl, async (owner) => {
      for (const sql of ['UPDATE key_change SET size = 0', 'DELETE FROM key_change']) await expect(owner.query(sql)).rejects.toThrow();
    });
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
