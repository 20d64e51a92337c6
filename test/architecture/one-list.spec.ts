import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { repeated, wordListsIn, type WordList } from './_lists.js';

const root = path.resolve(import.meta.dirname, '../..');
const product = execFileSync('git', ['ls-files', '-z', 'libs', 'apps'], { cwd: root, encoding: 'utf8' })
  .split('\0')
  .filter((f) => /\/src\/.*\.tsx?$/.test(f) && !/\/generated\/|\.spec\.tsx?$|\.d\.ts$/.test(f));
const isHome = (file: string): boolean => /^libs\/(records|kernel)\/src\//.test(file);
/** The rows are declared first: a kind takes its lists from them. */
const homesFirst = (a: WordList, b: WordList): number => Number(!a.file.includes('/rows/')) - Number(!b.file.includes('/rows/'));

describe('a list of words', () => {
  it('that libs/records or libs/kernel declares is written out once', () => {
    const lists = product.flatMap((f) => wordListsIn(f, readFileSync(path.join(root, f), 'utf8'))).sort(homesFirst);
    const found = repeated(lists, isHome);
    expect(found.map(({ list, of }) => `${list.file}:${list.line} ${list.name}: ${list.words.join(' ')} (${of.file}:${of.line})`)).toEqual(
      [],
    );
  });

  it('is found as an enum, an array and a union, in any order, and two words under one name', () => {
    const lists = [
      ...wordListsIn('home.ts', "const hazard = z.enum(['a', 'b', 'c']); const row = { way: z.enum(['in', 'out']).nullable() };"),
      ...wordListsIn('enum.ts', "const x = z.object({ hazard: z.enum(['c', 'b', 'a']) });"),
      ...wordListsIn('array.ts', "const all = ['a', 'c', 'b'] as const;"),
      ...wordListsIn('union.tsx', "interface P { y: 'a' | 'b' | 'c' | undefined } const p = <p>{1}</p>;"),
      ...wordListsIn('two.ts', "interface P { readonly way: 'out' | 'in' | null }"),
      ...wordListsIn('other.ts', "type Side = 'in' | 'out'; type More = 'a' | 'b' | 'c' | 'd'; const some = ['a', other];"),
    ];
    const found = repeated(lists, (file) => file === 'home.ts').map(({ list }) => list.file);
    expect(found.sort()).toEqual(['array.ts', 'enum.ts', 'two.ts', 'union.tsx']);
  });
});
