import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';
import { demoCommand } from '../../apps/api/src/demo/run/command.js';

describe('npm run demo', () => {
  let folder: string;
  const told: string[] = [];
  beforeEach(async () => {
    folder = await mkdtemp(path.join(tmpdir(), 'bakehouse-out-'));
    jest.spyOn(process.stderr, 'write').mockImplementation((text) => told.push(String(text)) > 0);
  });
  afterEach(async () => {
    jest.restoreAllMocks();
    await rm(folder, { recursive: true });
  });

  it('says at once that it cannot write its papers there, before anything is started', async () => {
    const file = path.join(folder, 'a file');
    await writeFile(file, '');
    const said: string[] = [];
    expect(await demoCommand(['--out', path.join(file, 'out')], (line) => said.push(line))).toBe(2);
    expect(said).toEqual([]);
    expect(told.join('')).toMatch(/cannot be made.*Name another folder: npm run demo -- --out DIR/s);
  });

  it('says how it is asked where it does not understand', async () => {
    expect(await demoCommand(['--weeks', '9'], () => undefined)).toBe(2);
    expect(told.at(-1)).toContain('--weeks 1 to 4');
  });
});
