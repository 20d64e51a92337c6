import { readFileSync } from 'node:fs';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { heldIn, readBundle, verifyBundle } from '../src/index.js';
import { plainName } from '../src/report-says.js';

const usage = `Checks the records of a bakehouse without its computer, and without a network:

  node verify.mjs bundle.json [--had "a key, root or note that you had before"] [--json]

It ends with 0 where all that was checked fits, 1 where something does not, 2 where the file is no bundle.`;

function check(words: string[]): number {
  const text = { type: 'string', multiple: true } as const;
  const { values, positionals } = parseArgs({
    args: words,
    options: { had: text, json: { type: 'boolean' } },
    allowPositionals: true,
    strict: true,
  });
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) return said([usage], 2);
  const bundle = readBundle(new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(readFileSync(file)));
  if (bundle === undefined) return said(['This file is no bundle that this program can read.'], 2);
  const report = verifyBundle(bundle, (values.had ?? []).flatMap(heldIn));
  const code = report.ok ? 0 : 1;
  if (values.json === true) return said([JSON.stringify(report)], code);
  const findings = report.books.flatMap((book) => [
    ...book.findings.map(({ seq, finding }) => `  ${plainName(book.name)}, entry ${seq}: ${finding}`),
    ...book.earlier
      .filter((e) => e.finding !== 'good')
      .map((e) => `  ${plainName(book.name)}, seal over ${e.size ?? 'unknown'} entries: ${e.finding}`),
  ]);
  return said([...report.says, ...findings], code);
}

function said(lines: readonly string[], code: number): number {
  process.stdout.write(lines.map((line) => `${line}\n`).join(''));
  return code;
}

try {
  process.exitCode = check(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : 'unknown error'}\n`);
  process.exitCode = 2;
}
