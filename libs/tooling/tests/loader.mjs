// How the tests load TypeScript: by Node itself, so that a worker loads what many test files share once. `./x.js` in source is ./x.ts on disk, a package of
// this repository is its source and needs no build, and what swc made of a file is kept by the file's content.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { transformSync } from '@swc/core';

const root = path.resolve(import.meta.dirname, '../../..');
const kept = path.join(root, '.cache/tests');
mkdirSync(kept, { recursive: true });
const options = {
  jsc: {
    target: 'es2023',
    parser: { syntax: 'typescript', tsx: true, decorators: true },
    transform: { legacyDecorator: true, decoratorMetadata: true },
    keepClassNames: true,
  },
  module: { type: 'es6' },
  sourceMaps: 'inline',
};
const ours = /^@bakehouse\/([a-z-]+)$/;
const endings = [
  [/\.js$/, '.ts'],
  [/\.js$/, '.tsx'],
  [/(?<!\.[a-z]+)$/, '.ts'], // the pages leave the ending away
  [/(?<!\.[a-z]+)$/, '.tsx'],
];

export async function resolve(specifier, context, next) {
  if (specifier === '@jest/globals') return found(new URL('globals.mjs', import.meta.url));
  const library = ours.exec(specifier);
  if (library) return found(pathToFileURL(path.join(root, 'libs', library[1], 'src/index.ts')));
  if (specifier.startsWith('.') && context.parentURL?.startsWith('file:') && !context.parentURL.includes('/node_modules/')) {
    for (const [ending, onDisk] of endings) {
      const url = new URL(specifier.replace(ending, onDisk), context.parentURL);
      if (ending.test(specifier) && existsSync(url)) return found(url);
    }
  }
  return next(specifier, context);
}

const found = (url) => ({ url: url.href, shortCircuit: true });

export async function load(url, context, next) {
  if (!/^file:.*\.tsx?(\?|$)/.test(url)) return next(url, context);
  const file = fileURLToPath(url.replace(/\?.*$/, ''));
  return { format: 'module', source: compiled(file, readFileSync(file, 'utf8')), shortCircuit: true };
}

function compiled(file, text) {
  const hash = createHash('sha256').update(JSON.stringify(options)).update(file).update('\0').update(text).digest('hex');
  const at = path.join(kept, `${hash}.mjs`);
  if (existsSync(at)) return readFileSync(at, 'utf8');
  const { code } = transformSync(text, { ...options, filename: file });
  writeFileSync(`${at}.${process.pid}`, code);
  renameSync(`${at}.${process.pid}`, at); // whole, or not there: others make the same one at the same time
  return code;
}
