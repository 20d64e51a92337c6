// tsx libs/tooling/generators/projections.ts schema | sql
// Writes the Prisma models of the projections from the list of collections, or prints the SQL that creates them from nothing.
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import * as z from 'zod';
import { collections } from '@bakehouse/records';

export const snake = (name: string): string => name.replace(/[A-Z]/g, (c) => `_${c.toLowerCase()}`);
const pascal = (name: string): string => name.replace(/(^|_)([a-z])/g, (_m, _u, c: string) => c.toUpperCase());

interface Column {
  field: string;
  column: string;
  sql: string;
  prisma: string;
  nullable: boolean;
}

const types = {
  uuid: { sql: 'UUID', prisma: 'String', attribute: '@db.Uuid' },
  text: { sql: 'TEXT', prisma: 'String', attribute: '' },
  int: { sql: 'BIGINT', prisma: 'BigInt', attribute: '' },
  boolean: { sql: 'BOOLEAN', prisma: 'Boolean', attribute: '' },
  instant: { sql: 'TIMESTAMPTZ(3)', prisma: 'DateTime', attribute: '@db.Timestamptz(3)' },
  day: { sql: 'DATE', prisma: 'DateTime', attribute: '@db.Date' },
  json: { sql: 'JSONB', prisma: 'Json', attribute: '' },
} as const;

function typeOf(schema: z.ZodType): keyof typeof types {
  const json = z.toJSONSchema(schema, { unrepresentable: 'any' });
  if (json.format === 'uuid') return 'uuid';
  if (json.format === 'date-time') return 'instant';
  if (json.format === 'date') return 'day';
  if (json.type === 'integer') return 'int';
  if (json.type === 'boolean') return 'boolean';
  if (json.type === 'string') return 'text';
  return 'json';
}

function columnsOf(row: z.ZodObject): Column[] {
  return Object.entries(row.shape).map(([field, raw]) => {
    const nullable = raw instanceof z.ZodNullable;
    const inner = nullable ? (raw.unwrap() as z.ZodType) : raw;
    const type = types[typeOf(inner)];
    return {
      field,
      column: snake(field),
      sql: type.sql,
      prisma: `${type.prisma}${nullable ? '?' : ''} @map("${snake(field)}")${type.attribute ? ` ${type.attribute}` : ''}`,
      nullable,
    };
  });
}

const all = Object.values(collections).map((c) => ({
  name: c.name,
  // A field that a longer index begins with needs none of its own: where nothing is known of the table, the planner would take the shorter one.
  indexes: [
    ...['book', ...c.by].filter((field) => !c.along.some(([first]) => first === field)).map((field) => [field]),
    ...c.along.map((fields) => [...fields]),
  ] as string[][],
  columns: columnsOf(c.row),
}));

function model({ name, indexes, columns }: (typeof all)[number]): string {
  return [
    `model ${pascal(name)} {`,
    '  organisation String @db.Uuid',
    '  book String @db.Uuid',
    '  id String @db.Uuid',
    '  entry String @db.Uuid',
    '  seq BigInt',
    ...columns.map((c) => `  ${c.field} ${c.prisma}`),
    '',
    '  @@id([organisation, id])',
    ...indexes.map((fields) => `  @@index([organisation, ${fields.join(', ')}])`),
    `  @@map("${name}")`,
    '}',
    '',
  ].join('\n');
}

function table({ name, indexes, columns }: (typeof all)[number]): string {
  return [
    `CREATE TABLE "${name}" (`,
    [
      '  "organisation" UUID NOT NULL',
      '  "book" UUID NOT NULL',
      '  "id" UUID NOT NULL',
      '  "entry" UUID NOT NULL',
      '  "seq" BIGINT NOT NULL',
      ...columns.map((c) => `  "${c.column}" ${c.sql}${c.nullable ? '' : ' NOT NULL'}`),
      `  CONSTRAINT "${name}_pkey" PRIMARY KEY ("organisation", "id")`,
    ].join(',\n'),
    ');',
    ...indexes.map((fields) => {
      const named = fields.map(snake);
      return `CREATE INDEX "${name}_organisation_${named.join('_')}_idx" ON "${name}"("organisation", ${named.map((n) => `"${n}"`).join(', ')});`;
    }),
    `ALTER TABLE "${name}" ENABLE ROW LEVEL SECURITY;`,
    `CREATE POLICY "${name}_fence" ON "${name}" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());`,
    `GRANT SELECT, INSERT, UPDATE, DELETE ON "${name}" TO bakehouse_service;`,
    '',
  ].join('\n');
}

const header = '// Made by libs/tooling/generators/projections.ts from the list of collections. Change the collection, not this file.\n\n';
if (process.argv[2] === 'sql') process.stdout.write(all.map(table).join('\n'));
else writeFileSync(path.resolve(import.meta.dirname, '../../../prisma/schema/projections.prisma'), header + all.map(model).join('\n'));
