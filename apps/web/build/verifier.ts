import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { build, type Plugin } from 'vite';

const folder = path.resolve(import.meta.dirname, '../../../libs/ledger/verify');

/** One of its programs in one file, with all it needs in it. */
async function inOne(entry: string, format: 'es' | 'iife'): Promise<string> {
  const made = await build({
    root: folder,
    configFile: false,
    logLevel: 'error',
    publicDir: false,
    build: {
      write: false,
      target: 'es2022',
      modulePreload: false,
      lib: { entry: path.join(folder, entry), formats: [format], name: 'verify', fileName: 'verify' },
      rolldownOptions: { external: [/^node:/] },
    },
  });
  const outputs = Array.isArray(made) ? made.flatMap((one) => one.output) : 'output' in made ? made.output : [];
  const [first, ...more] = outputs;
  if (first?.type !== 'chunk' || more.length > 0) throw new Error(`${entry} did not become one file`);
  return first.code;
}

const sourceHash = (text: string): string => `sha256-${createHash('sha256').update(text).digest('base64')}`;

/** What an outsider checks a bundle with: a page that is opened from disk, and a script for Node. */
export async function verifierFiles(): Promise<{ readonly 'verify.html': string; readonly 'verify.mjs': string }> {
  const script = (await inOne('page.ts', 'iife')).trim();
  if (/<\/script|<!--/i.test(script)) throw new Error('this script cannot stand inside a page');
  const html = readFileSync(path.join(folder, 'page.html'), 'utf8');
  const style = /<style>([^]*?)<\/style>/.exec(html)?.[1] ?? '';
  const page = html
    .replace('__STYLE_HASH__', () => sourceHash(style))
    .replace('__SCRIPT_HASH__', () => sourceHash(script))
    .replace('__SCRIPT__', () => script);
  return { 'verify.html': page, 'verify.mjs': await inOne('script.ts', 'es') };
}

/** Puts both beside the app, to be taken along with a bundle. */
export function verifier(): Plugin {
  return {
    name: 'verifier',
    apply: 'build',
    generateBundle: {
      order: 'post',
      async handler() {
        for (const [fileName, source] of Object.entries(await verifierFiles())) this.emitFile({ type: 'asset', fileName, source });
      },
    },
  };
}
