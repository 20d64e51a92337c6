// npm run test:long [-- what Jest takes]: every test that has a full size (`test/support/size.ts`) at that size, which takes too long for every run.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { root } from './prepare.mjs';

process.env.TEST_SIZE = 'full';
if (process.argv.length === 2) {
  const folder = path.join(root, 'test');
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.spec.ts'));
  const sized = files.filter((file) => /support\/size\.js'/.test(readFileSync(path.join(folder, file), 'utf8')));
  process.argv.push(...sized.map((file) => path.join('test', file)));
}
await import('./test.mjs');
