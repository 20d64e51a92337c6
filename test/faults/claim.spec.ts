import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { claim } from '../../apps/api/src/platform/health/running.js';
import { freePort } from '../support/start.js';

describe('a data folder', () => {
  let folder: string;
  const file = (): string => path.join(folder, 'running.json');
  const silent = (): void => undefined;
  beforeEach(async () => {
    folder = await mkdtemp(path.join(tmpdir(), 'claim-'));
  });
  afterEach(() => rm(folder, { recursive: true }));

  it('is taken, tells where it is served, and is given back', async () => {
    const mine = await claim(folder, 'mine', silent);
    if (!mine.ours) throw new Error('somebody has it');
    expect(JSON.parse(await readFile(file(), 'utf8'))).toMatchObject({ pid: process.pid, instance: 'mine', url: null });
    await mine.announce('http://127.0.0.1:3000');
    expect(JSON.parse(await readFile(file(), 'utf8'))).toMatchObject({ instance: 'mine', url: 'http://127.0.0.1:3000' });
    await mine.release();
    await expect(readFile(file())).rejects.toThrow(/ENOENT/);
  });

  it('is not given back by one that lost it', async () => {
    const mine = await claim(folder, 'mine', silent);
    await writeFile(file(), JSON.stringify({ pid: process.ppid, born: null, instance: 'theirs', url: null }));
    if (mine.ours) await mine.release();
    expect(JSON.parse(await readFile(file(), 'utf8'))).toMatchObject({ instance: 'theirs' });
  });

  it.each([
    ['a process that has ended', JSON.stringify({ pid: 4_194_305, born: null, instance: 'old', url: null })],
    ['an earlier process of our own number', JSON.stringify({ pid: process.pid, born: 'another start', instance: 'old', url: null })],
    [
      'an earlier process of a number that is now another’s',
      JSON.stringify({ pid: process.ppid, born: 'another start', instance: 'old', url: null }),
    ],
    ['nobody, cut off while it was written', '{"pid": 12'],
  ])('is taken from %s', async (_, note) => {
    await writeFile(file(), note);
    expect((await claim(folder, 'mine', silent)).ours).toBe(true);
    expect(JSON.parse(await readFile(file(), 'utf8'))).toMatchObject({ instance: 'mine' });
  });

  describe('of a process that serves', () => {
    let server: Server;
    let url: string;
    beforeEach(async () => {
      const port = await freePort();
      url = `http://127.0.0.1:${port}`;
      server = createServer((_, response) => response.end(JSON.stringify({ service: 'bakehouse-ledger', instance: 'theirs' })));
      await new Promise<void>((resolve) => {
        server.listen(port, '127.0.0.1', resolve);
      });
    });
    afterEach(
      () =>
        new Promise((resolve) => {
          server.close(resolve);
        }),
    );

    it('is not taken', async () => {
      await writeFile(file(), JSON.stringify({ pid: process.ppid, born: null, instance: 'theirs', url }));
      expect(await claim(folder, 'mine', silent)).toEqual({ ours: false, url });
      expect(JSON.parse(await readFile(file(), 'utf8'))).toMatchObject({ instance: 'theirs' });
    });

    it('is waited for while it starts', async () => {
      await writeFile(file(), JSON.stringify({ pid: process.ppid, born: null, instance: 'theirs', url: null }));
      const lines: string[] = [];
      const found = await claim(folder, 'mine', (line) => {
        lines.push(line);
        void writeFile(file(), JSON.stringify({ pid: process.ppid, born: null, instance: 'theirs', url }));
      });
      expect(found).toEqual({ ours: false, url });
      expect(lines).toEqual([`${folder} is in use by process ${process.ppid}, which is starting or stopping; waiting for it`]);
    });
  });
});
