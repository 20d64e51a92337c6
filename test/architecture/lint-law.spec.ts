import { spawn, execFileSync } from 'node:child_process';
import { text } from 'node:stream/consumers';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';

const root = path.resolve(import.meta.dirname, '../..');
const eslint = [path.join(root, 'node_modules/eslint/bin/eslint.js'), '--config', 'libs/tooling/eslint.config.mjs'];

interface Restricted {
  readonly selector: string;
  readonly message: string;
}

/** A line that breaks each rule of ours, by the message that it must earn. */
const planted: Readonly<Record<string, readonly string[]>> = {
  'Ask the clock.': ['export const now = Date.now();', 'export const today = new Date();'],
  'Chance comes from ids.': ['export const chance = Math.random();'],
  'Settings come from config.': ['export const setting = process.env.SETTING;', "export const other = process.env['OTHER'];"],
  "import * as z from 'zod': a named import costs 67 kB more in a bundle.": ["import { z } from 'zod';"],
  'Named exports only.': ['export default 1;'],
};
const fine = ['export const then = new Date(0);', 'export const most = Math.max(1, 2);', "import * as zod from 'zod';"];

const restrictedAt = (file: string): Restricted[] => {
  const config = JSON.parse(execFileSync(process.execPath, [...eslint, '--print-config', file], { cwd: root, encoding: 'utf8' })) as {
    rules: { 'no-restricted-syntax': [number, ...Restricted[]] };
  };
  const [severity, ...restricted] = config.rules['no-restricted-syntax'];
  expect(severity === 2 || restricted.length === 0).toBe(true);
  return restricted;
};

async function messages(lines: readonly string[]): Promise<Map<string, string>> {
  const child = spawn(process.execPath, [...eslint, '--format', 'json', '--stdin', '--stdin-filename', 'apps/web/src/planted.tsx'], {
    cwd: root,
  });
  child.stdin.end(lines.join('\n'));
  const [result] = JSON.parse(await text(child.stdout)) as [{ messages: { ruleId: string; message: string; line: number }[] }];
  const ours = result.messages.filter((m) => m.ruleId === 'no-restricted-syntax');
  return new Map(ours.map((m) => [lines[m.line - 1] ?? '', m.message]));
}

describe('the lint law', () => {
  it('complains about every planted line, and of nothing that is fine', async () => {
    const wanted = Object.entries(planted).flatMap(([message, lines]) => lines.map((line) => [line, message] as const));
    const found = await messages([...wanted.map(([line]) => line), ...fine]);
    expect([...found].sort()).toEqual([...wanted].sort());
  });

  it('has a planted line for every rule, and holds in every part of the product', () => {
    const everywhere = [
      'libs/kernel/src/order.ts',
      'libs/records/src/kinds.ts',
      'apps/api/src/app.ts',
      'apps/api/src/platform/http/problem.ts',
      'apps/web/src/app.tsx',
    ];
    const all = everywhere.map(restrictedAt);
    for (const restricted of all) expect(restricted).toEqual(all[0]);
    expect([...new Set((all[0] ?? []).map((r) => r.message))].sort()).toEqual(Object.keys(planted).sort());
  });

  it('lets clock, ids and config have time, chance and settings, and nothing else', () => {
    const messagesAt = (file: string) => restrictedAt(file).map((r) => r.message);
    for (const part of ['clock', 'ids', 'config'])
      expect(messagesAt(`apps/api/src/platform/${part}/index.ts`)).toEqual([expect.stringContaining('zod')]);
  });
});
