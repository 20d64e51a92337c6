// npm run bench -- <suite>: runs test/bench/<suite>.ts and prints what it measured as a table. Measures, never asserts.
import { existsSync, readdirSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const folder = join(import.meta.dirname, '../../../test/bench');
const suites = readdirSync(folder)
  .filter((name) => name.endsWith('.ts') && !name.startsWith('_'))
  .map((name) => name.slice(0, -'.ts'.length));
const [suite] = process.argv.slice(2);

if (suite === undefined || !/^[a-z0-9-]+$/.test(suite) || !existsSync(join(folder, `${suite}.ts`))) {
  console.error(`Name a suite: npm run bench -- <suite>, one of: ${suites.join(', ')}`);
  process.exit(2);
}

const { run } = await import(pathToFileURL(join(folder, `${suite}.ts`)).href);
console.log(`${suite}: Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}`);
printTable(await run());

/** Columns in the order in which rows first name them; numbers to the right. */
function printTable(rows) {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const text = (value) =>
    typeof value === 'number' ? (Number.isInteger(value) ? value.toLocaleString('en-GB') : value.toFixed(2)) : String(value ?? '');
  const widths = columns.map((column) => Math.max(column.length, ...rows.map((row) => text(row[column]).length)));
  const line = (cells, right) =>
    cells
      .map((cell, i) => (right[i] ? cell.padStart(widths[i]) : cell.padEnd(widths[i])))
      .join('  ')
      .trimEnd();
  const right = columns.map((column) => rows.some((row) => typeof row[column] === 'number'));
  console.log(line(columns, right));
  console.log(widths.map((width) => '-'.repeat(width)).join('  '));
  for (const row of rows)
    console.log(
      line(
        columns.map((column) => text(row[column])),
        right,
      ),
    );
}
