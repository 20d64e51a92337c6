import { execFile } from 'node:child_process';
import { chmod, mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { freePort, root, Start } from '../support/start.js';
import { ownFolder } from '../support/folder.js';

interface Ran {
  readonly code: number | null;
  readonly said: string;
}

/** `npm run records -- …` as a process of its own. */
function records(env: Readonly<Record<string, string>>, ...words: readonly string[]): Promise<Ran> {
  const { npm_lifecycle_event: _ours, DATABASE_URL: _other, OWNER_DATABASE_URL: _owner, ...rest } = process.env;
  return new Promise((resolve) => {
    const child = execFile(
      process.execPath,
      [path.join(root, 'libs/tooling/bin/records.mjs'), ...words],
      { cwd: root, env: { ...rest, ...env } },
      (_error, stdout, stderr) => resolve({ code: child.exitCode, said: stdout + stderr }),
    );
  });
}

describe('from a pair of keys to a restored bakehouse, by the commands alone', () => {
  let folder: string;
  let lost: string;
  let backups: string;
  let key: string;
  let settings: Readonly<Record<string, string>>;
  beforeAll(async () => {
    folder = await ownFolder('restore-');
    await chmod(folder, 0o711); // under root, PostgreSQL runs as another account that must get in
    [lost, backups, key] = [path.join(folder, 'lost'), path.join(folder, 'backups'), path.join(folder, 'key.txt')];
    const { said } = await records({}, 'backup-key');
    settings = { DATA_DIR: lost, BACKUP_DIR: backups, BACKUP_TO: /BACKUP_TO=(age1\S+)/.exec(said)?.[1] ?? '' };
    await writeFile(key, /AGE-SECRET-KEY-1\S+/.exec(said)?.[0] ?? '');
  });
  afterAll(() => rm(folder, { recursive: true }));

  it('a running service takes one by itself; another is taken beside it', async () => {
    expect((await records(settings, 'begin', 'The house', 'Mill Lane', 'Europe/London', 'Ada Min')).code).toBe(0);
    const service = new Start(lost, await freePort(), undefined, { ...settings, LOG_LEVEL: 'info' });
    await service.says(/Backup\S* \S*bakehouse-\d{8}T\d{6}Z\.age: \d+ rows, \d+ bytes, verified/);
    expect(await service.health()).toMatchObject({ status: 'ready', backup: { state: 'recent' } });
    const beside = await records(settings, 'backup');
    expect([beside.code, beside.said]).toEqual([0, expect.stringContaining('It is on the same disk as the records')]);
    expect(await service.stop()).toBe(0);
  });

  it('and after the data folder is gone, the newest is restored into an empty one, once', async () => {
    await rm(lost, { recursive: true });
    const newest =
      (await readdir(backups))
        .filter((name) => name.endsWith('.age'))
        .sort()
        .at(-1) ?? '';
    const restore = ['restore', path.join(backups, newest), '--key', key];
    const first = await records({ DATA_DIR: path.join(folder, 'new') }, ...restore);
    expect([first.code, first.said]).toEqual([
      0,
      expect.stringMatching(/The house, Mill Lane: 0 entries[^]*No faults found\.\nRestored: /),
    ]);
    const second = await records({ DATA_DIR: path.join(folder, 'new') }, ...restore);
    expect([second.code, second.said]).toEqual([1, expect.stringContaining('is not empty (keys, postgres)')]);
    const nothing = path.join(folder, 'untouched');
    const refused = async (words: readonly string[], env: Readonly<Record<string, string>> = {}): Promise<void> => {
      const { code, said } = await records({ DATA_DIR: nothing, ...env }, ...words);
      expect([code, said]).toEqual([1, expect.stringContaining('Nothing was changed.')]);
      expect(await readdir(nothing).catch(() => 'no folder')).toBe('no folder');
    };
    await refused(['restore', path.join(backups, newest), '--key', path.join(folder, 'no-key.txt')]);
    await refused(restore, { SEAL_KEY: Buffer.alloc(32, 9).toString('base64') });
  });

  it('says how it is asked where something is missing, and starts no service with half of the settings', async () => {
    const { BACKUP_TO: to = '', ...half } = settings;
    expect(await records({ DATA_DIR: path.join(folder, 'new') }, 'restore', 'backup.age')).toMatchObject({
      code: 2,
      said: expect.stringMatching(/^Say what is restored and with which key/m),
    });
    const other = path.join(folder, 'other');
    await mkdir(other);
    const service = new Start(other, await freePort(), undefined, half);
    expect([await service.ended, service.output]).toEqual([1, expect.stringContaining('Only one of BACKUP_DIR and BACKUP_TO is set')]);
    expect(service.output).not.toContain(to);
  });
});
