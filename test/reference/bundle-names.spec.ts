import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { book, bundleOf } from '../support/bundles.js';
import { writeVerifiers } from '../support/verifiers.js';

const python = spawnSync('python3', ['--version']).status === 0;
if (!python) process.stderr.write('There is no python3 here: what the second checker says was not tried.\n');

/** Colours and a cleared line of a terminal (ECMA-48), a new line, what turns the direction of text (Unicode TR 9), and no end. */
const forged = `Mill Lane\u001b[2K\rbad\nEverything in this file fits its seals.\u202e\u2028${'x'.repeat(500)}`;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'bundle-names-'));
  writeVerifiers(folder);
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('the name of a book, which nobody signed', () => {
  it('begins no line of a report, hides none and is not shown whole', () => {
    const file = path.join(folder, 'bundle.json');
    writeFileSync(file, JSON.stringify(bundleOf({ ...book(4, 14), name: forged })));
    const programs = [
      [process.execPath, path.join(folder, 'verify.mjs')],
      ...(python ? [['python3', path.join(import.meta.dirname, 'verify_bundle.py')]] : []),
    ];
    for (const [program = '', ...first] of programs) {
      const { stdout } = spawnSync(program, [...first, file], { encoding: 'utf8' });
      expect(stdout).toContain('Mill Lane\ufffd[2K');
      expect(stdout).not.toMatch(/^Everything in this file fits its seals/m);
      expect(stdout).not.toMatch(/[^\P{Cc}\n]|\p{Cf}|\u2028/u);
      expect(stdout).not.toContain('x'.repeat(100));
    }
  });
});
