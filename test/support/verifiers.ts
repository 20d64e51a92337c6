import { execFileSync } from 'node:child_process';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '../..');

/** What an outsider checks with, built now and put into a folder; by a process of its own, as the build of the pages is. */
export function writeVerifiers(folder: string): void {
  const words = ['node_modules/tsx/dist/cli.mjs', 'libs/tooling/generators/verifier.ts', folder];
  execFileSync(process.execPath, words, { cwd: root, encoding: 'utf8' });
}
