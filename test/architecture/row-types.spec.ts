import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { Sources } from './_row-types.js';

const root = path.resolve(import.meta.dirname, '../..');
const files = execFileSync('git', ['ls-files', '-z', 'apps/api/src'], { cwd: root, encoding: 'utf8' })
  .split('\0')
  .filter((f) => /\.ts$/.test(f) && !/\.spec\.ts$/.test(f));
const texts = Object.fromEntries(files.map((f) => [f, readFileSync(path.join(root, f), 'utf8')]));

const said = (of: Readonly<Record<string, string>>): string[] => new Sources(of).byHand().map((h) => `${h.file}:${h.line} ${h.text}`);

/** Planted in a query file: each is a row that somebody typed by hand. */
const planted = [
  'interface R { readonly lot: string; }',
  'interface R { readonly mg: number | null; }',
  'type R = { held: boolean };',
  "interface R { readonly way: 'on' | 'off'; }",
  'interface R { readonly sites: readonly string[]; }',
  'interface R { readonly words: Readonly<Record<string, string>>; }',
  'interface R { readonly leaf: Buffer | null; }',
  "const r = client.query<{ known: number }>('SELECT count(*) AS known FROM lot');",
];
const fine = [
  "interface R extends Pick<Row<'departure'>, 'lot' | 'channel'>, Maybe<Pick<Row<'party'>, 'name'>> {}",
  "interface R { readonly asWritten: Row<'lot'>['quantityAsWritten']; readonly held: Computed<boolean>; }",
  "const r = client.query<{ known: Computed<number> }>('SELECT count(*) AS known FROM lot');",
  'export async function one(client: ClientBase, lots: readonly string[]): Promise<string | undefined> { return undefined; }',
];

describe('the rows of raw SQL', () => {
  it('are typed from the schema, never by hand', () => {
    expect(said(texts)).toEqual([]);
  });

  it('are found: in query files and in the platform', () => {
    const typed = Object.entries(texts).filter(([, text]) => /\.query</.test(text));
    expect(typed.filter(([file]) => file.endsWith('.query.ts')).length).toBeGreaterThan(15);
    expect(typed.filter(([file]) => file.includes('/platform/')).length).toBeGreaterThan(15);
  });

  it.each(planted)('may not be like this: %s', (line) => {
    expect(said({ 'a/planted.query.ts': line })).toHaveLength(1);
  });

  it.each(fine)('may be like this: %s', (line) => {
    expect(said({ 'a/planted.query.ts': line })).toEqual([]);
  });

  it('are looked for through the types that they name, in other files too', () => {
    const asked = "import type { Beside } from './index.js';\ninterface R extends Beside {}\nclient.query<R>('SELECT');";
    const index = "export { type Beside } from './beside.js';";
    const beside = 'interface NoRow { readonly also: string; }\nexport interface Beside { readonly person: string; }';
    expect(said({ 'a/asks.ts': asked, 'a/index.ts': index, 'a/beside.ts': beside })).toEqual(['a/beside.ts:2 readonly person: string;']);
  });

  it('are not typed by what shows or sends them', () => {
    const asked = "import type { Deliveries } from '@bakehouse/contracts';\nclient.query<Deliveries[number]>('SELECT');";
    expect(said({ 'a/asks.ts': asked })).toEqual(['a/asks.ts:2 Deliveries']);
    const narrowed =
      "import type { Words } from '@bakehouse/contracts';\nclient.query<{ as: Holds<TableRow<'setAside'>['as'], Words> }>('SELECT');";
    expect(said({ 'a/asks.ts': narrowed })).toEqual([]);
  });
});
