import { execFile } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { kinds } from '@bakehouse/records';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import request from 'supertest';
import { allCalculations } from '../../apps/api/src/modules/calculate/index.js';
import { startTestApp, type TestApp } from '../support/app.js';

const root = path.resolve(import.meta.dirname, '../..');
const file = path.join(root, 'libs/api-client/openapi.json');
const types = path.join(root, 'libs/api-client/src/generated/types.ts');
const run = promisify(execFile);

type Json = { readonly [key: string]: Json } & readonly Json[];
interface Document {
  openapi: string;
  paths: Record<string, Record<string, { responses: Record<string, unknown> }>>;
  components: { schemas: Record<string, object> };
}
let t: TestApp;
let served: Document;
beforeAll(async () => {
  t = await startTestApp();
  served = (await request(t.server).get('/api/v1/openapi.json').expect(200)).body as Document;
  if (process.env['GENERATE'] === 'write') {
    writeFileSync(file, `${JSON.stringify(served, null, 1)}\n`);
    await generateTypes(types);
  }
});
afterAll(() => t.close());

const generateTypes = (to: string) => run(process.execPath, [path.join(root, 'libs/tooling/generators/api-types.mjs'), file, to]);

function* refsIn(value: unknown): Generator<string> {
  if (typeof value !== 'object' || value === null) return;
  if ('$ref' in value && typeof value.$ref === 'string') yield value.$ref;
  for (const inner of Object.values(value as Json)) yield* refsIn(inner);
}

/** What stands under `schema`, and each component, with where. */
function* schemasIn(value: unknown, where = ''): Generator<readonly [string, object]> {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, inner] of Object.entries(value as Json)) {
    if (key === 'schema' || where.endsWith('/components/schemas')) yield [`${where}/${key}`, inner];
    else yield* schemasIn(inner, `${where}/${key}`);
  }
}

describe('the API’s description', () => {
  it('is OpenAPI 3.1, and every reference in it leads somewhere', () => {
    expect(served.openapi).toBe('3.1.0');
    const missing = [...refsIn(served)].filter(
      (ref) =>
        ref
          .split('/')
          .slice(1)
          .reduce<unknown>((at, key) => (at as Json | undefined)?.[key.replaceAll('~1', '/')], served) === undefined,
    );
    expect([...new Set(missing)]).toEqual([]);
  });

  it('has schemas of the dialect that OpenAPI 3.1 names, JSON Schema 2020-12', () => {
    const ajv = addFormats.default(new Ajv2020({ strict: false }));
    const wrong = [...schemasIn(served)].flatMap(([where, schema]) =>
      ajv.validateSchema(schema) === true ? [] : [[where, ajv.errorsText()]],
    );
    expect(wrong).toEqual([]);
  });

  it('is the file that the client is made from', () => {
    expect(served).toEqual(JSON.parse(readFileSync(file, 'utf8')));
  });

  it('gives the types that stand in the client', async () => {
    const again = path.join(tmpdir(), `api-types-${process.pid}.ts`);
    await generateTypes(again);
    expect(readFileSync(again, 'utf8')).toBe(readFileSync(types, 'utf8'));
  });

  it('tells the problem that any operation may answer', () => {
    const silent = Object.entries(served.paths).flatMap(([at, item]) =>
      Object.entries(item)
        .filter(([, o]) => !('default' in o.responses))
        .map(([method]) => `${method} ${at}`),
    );
    expect(silent).toEqual([]);
  });

  it.each(kinds.map((k) => [k.name, k] as const))('takes the example of %s', (name, kind) => {
    const ajv = addFormats.default(new Ajv2020({ strict: false }));
    const schema = served.components.schemas[`Entry.${name}`] as { examples: unknown[] };
    expect(ajv.validate(schema, schema.examples[0])).toBe(true);
    expect(schema.examples[0]).toMatchObject({ kind: name, payload: kind.examples[0] });
  });

  it.each(allCalculations.map((c) => [c.name, c] as const))('has a path for %s whose example is answered', async (name, { example }) => {
    const operation = served.paths[`/api/v1/calculate/${name}`]?.['post'];
    expect(operation).toBeDefined();
    const { body } = await request(t.server)
      .post(`/api/v1/calculate/${name}`)
      .send(example as object)
      .expect(200);
    expect(body).toMatchObject({ explanation: expect.any(String), source: expect.any(String), cautions: expect.any(Array) });
  });
});
