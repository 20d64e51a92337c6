import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';

const root = path.resolve(import.meta.dirname, '../..');
const tracked = execFileSync('git', ['ls-files', '-z'], { cwd: root, encoding: 'utf8' }).split('\0').filter(Boolean);
const isText = (file: string): boolean =>
  /\.(ts|tsx|mjs|js|css|html|md|json|yml|prisma|sql|svg)$/.test(file) && !file.endsWith('package-lock.json');
const isCode = (file: string): boolean => /\.(ts|tsx|mjs|css)$/.test(file) && !file.includes('/generated/');
const read = (file: string): string => readFileSync(path.join(root, file), 'utf8');

/** Longer than 300 lines, and why. The list only shrinks. */
const longOnPurpose = new Map([['libs/standards/src/gs1/application-identifiers.ts', 'a published table']]);

describe('a tidy tree', () => {
  it('has no long files', () => {
    const long = tracked
      .filter(isCode)
      .filter((f) => !longOnPurpose.has(f))
      .map((f) => [f, read(f).split('\n').length] as const)
      .filter(([, n]) => n > 301);
    expect(long).toEqual([]);
    for (const file of longOnPurpose.keys()) expect(tracked).toContain(file);
  });

  it('has nothing unfinished, skipped or silenced', () => {
    const banned =
      /\b(TODO|FIXME|XXX)\b|\b(it|test|describe)\.(only|skip|todo)\b|\bx(it|describe)\(|waitForTimeout|@ts-(ignore|nocheck|expect-error)|\bas any\b/;
    const found = tracked
      .filter((f) => isCode(f) && !f.endsWith('tidy.spec.ts'))
      .flatMap((f) =>
        read(f)
          .split('\n')
          .flatMap((line, i) => (banned.test(line) ? [`${f}:${i + 1} ${line.trim().slice(0, 80)}`] : [])),
      );
    expect(found).toEqual([]);
  });

  it('speaks of the product alone: no path of a machine, no registry', () => {
    const banned = /\/(root|home\/\w+|work\/(main|shared)|tmp\/\w+)\/|registry\.npmjs|deb\.debian/;
    const found = tracked
      .filter((f) => isText(f) && !f.endsWith('tidy.spec.ts'))
      .flatMap((f) =>
        read(f)
          .split('\n')
          .flatMap((line, i) => (banned.test(line) ? [`${f}:${i + 1} ${line.trim().slice(0, 80)}`] : [])),
      );
    expect(found).toEqual([]);
  });

  it('has SQL in query files and the platform alone', () => {
    const found = tracked
      .filter((f) => /^apps\/api\/src\/.*\.ts$/.test(f) && !/^apps\/api\/src\/(platform|generated)\/|\.(query|spec)\.ts$/.test(f))
      .filter((f) => /\.query[<(]/.test(read(f)));
    expect(found).toEqual([]);
  });

  it('reads hashed bytes in code alone: no SQL takes them apart', () => {
    const apart = /convert_from\s*\(|\bbytes"?\s*::|\bbytes"?\s*(->|#>)|\b(get_byte|encode)\s*\(\s*(\w+\.)?"?bytes/i;
    for (const sql of ["convert_from(b.bytes, 'UTF8')", 'b.bytes::jsonb', '"bytes" #>> path', "encode(b.bytes, 'escape')"])
      expect(sql).toMatch(apart);
    const found = tracked
      .filter((f) => /^apps\/api\/src\/.*\.ts$/.test(f) && !f.includes('/generated/'))
      .filter((f) => apart.test(read(f)));
    expect(found).toEqual([]);
  });

  it('keeps its top level to what a newcomer looks for', () => {
    const top = [...new Set(tracked.map((f) => f.split('/')[0] ?? ''))].filter((f) => !f.startsWith('.'));
    expect(top.sort()).toEqual([
      'DEVELOPERS.md',
      'README.md',
      'apps',
      'docker-compose.yml',
      'libs',
      'package-lock.json',
      'package.json',
      'prisma',
      'test',
      'tsconfig.json',
    ]);
  });

  it('has a note beside every migration', () => {
    const migrations = tracked.filter((f) => f.startsWith('prisma/') && f.endsWith('/migration.sql'));
    expect(migrations.length).toBeGreaterThan(0);
    for (const m of migrations) expect(tracked).toContain(m.replace('migration.sql', 'NOTE.md'));
  });
});
