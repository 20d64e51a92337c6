import { execFile } from 'node:child_process';
import path from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);
const cruiser = path.resolve(import.meta.dirname, '../../node_modules/dependency-cruiser/bin/dependency-cruise.mjs');

export interface Cruise {
  readonly modules: readonly {
    readonly source: string;
    readonly dependencies: readonly { readonly couldNotResolve: boolean; readonly module: string; readonly resolved: string }[];
  }[];
  readonly summary: {
    readonly violations: readonly { readonly rule: { readonly name: string }; readonly from: string; readonly to: string }[];
    readonly ruleSetUsed: {
      readonly forbidden: readonly { readonly name: string; readonly from: { readonly path?: string | string[] } }[];
    };
  };
}

/** Every import of a tree, judged by its own copy of the law. The command fails when the law is broken, and says the same. */
export async function cruised(tree: string): Promise<Cruise> {
  const args = [cruiser, '--config', 'libs/tooling/dependency-cruiser.mjs', '-T', 'json', 'libs', 'apps', 'test'];
  const { stdout } = await run(process.execPath, args, { cwd: tree, maxBuffer: 256 * 1024 * 1024 }).catch(
    (error: { stdout: string }) => error,
  );
  return JSON.parse(stdout) as Cruise;
}
