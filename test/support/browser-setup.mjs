import { execFile } from 'node:child_process';
import path from 'node:path';
import { promisify } from 'node:util';
import setup from './global-setup.mjs';

const root = path.resolve(import.meta.dirname, '../..');

/** What every test on the server has, and the web app as it stands, built for use: once for all the tests that open it. */
export default async function browserSetup() {
  const folder = path.join(await setup(), 'pages');
  const vite = [path.join(root, 'node_modules/vite/bin/vite.js'), 'build', '--outDir', folder, '--emptyOutDir', '--logLevel', 'error'];
  await promisify(execFile)(process.execPath, vite, { cwd: path.join(root, 'apps/web'), env: { ...process.env, NODE_ENV: 'production' } });
  process.env.BAKEHOUSE_TEST_PAGES = folder;
}
