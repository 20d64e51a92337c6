import path from 'node:path';
import { beforeAll, describe, expect, it } from '@jest/globals';
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';

const root = path.resolve(import.meta.dirname, '../..');
const run = promisify(execFile);

interface Rule {
  readonly name: string;
  readonly from: { readonly path?: string | string[] };
}
interface Cruise {
  readonly modules: readonly {
    readonly source: string;
    readonly couldNotResolve?: boolean;
    readonly dependencies: readonly { readonly couldNotResolve: boolean; readonly module: string }[];
  }[];
  readonly summary: {
    readonly violations: readonly { readonly rule: { readonly name: string }; readonly from: string; readonly to: string }[];
    readonly ruleSetUsed: { readonly forbidden: readonly Rule[] };
  };
}

let cruise: Cruise;
beforeAll(async () => {
  const args = [
    'node_modules/dependency-cruiser/bin/dependency-cruise.mjs',
    '--config',
    'libs/tooling/dependency-cruiser.mjs',
    '-T',
    'json',
    'libs',
    'apps',
    'test',
  ];
  const { stdout } = await run(process.execPath, args, { cwd: root, maxBuffer: 256 * 1024 * 1024 }).catch(
    (error: { stdout: string }) => error,
  );
  cruise = JSON.parse(stdout) as Cruise;
}, 60_000);

describe('the import law', () => {
  it('is kept', () => {
    expect(cruise.summary.violations.map((v) => `${v.rule.name}: ${v.from} → ${v.to}`)).toEqual([]);
  });

  it('sees what our packages import of each other', () => {
    const writer = cruise.modules.find((m) => m.source.endsWith('platform/ledger/ledger-writer.ts'));
    expect(writer?.dependencies.some((d) => !d.couldNotResolve && d.module === '@bakehouse/records')).toBe(true);
  });

  it('has no rule that matches no file', () => {
    const sources = cruise.modules.map((m) => m.source);
    const idle = cruise.summary.ruleSetUsed.forbidden.filter(({ from }) => {
      const patterns = [from.path ?? '.'].flat().map((p) => new RegExp(p));
      return !sources.some((s) => patterns.some((p) => p.test(s)));
    });
    expect(idle.map((r) => r.name)).toEqual([]);
  });
});
