import request from 'supertest';
import * as z from 'zod';
import type { TestApp } from './app.js';

/** A JSON schema as the description states it; what is in it is looked at where it is needed. */
export type Schema = Readonly<Record<string, unknown>>;
const schema = z.record(z.string(), z.unknown());

const content = z.record(z.string(), z.object({ schema: schema.optional(), example: z.unknown().optional() }));
const operation = z.object({
  parameters: z
    .array(z.object({ name: z.string(), in: z.enum(['path', 'query', 'header']), required: z.boolean().default(false), schema }))
    .default([]),
  requestBody: z.object({ content }).optional(),
  responses: z.record(z.string(), z.object({ content: content.optional() })),
  security: z.array(z.unknown()).optional(),
});
const document = z.object({
  paths: z.record(z.string(), z.record(z.string(), operation)),
  components: z.object({ schemas: z.record(z.string(), schema) }),
});

export type Parameter = z.infer<typeof operation>['parameters'][number];
const methods = { get: 'GET', post: 'POST', put: 'PUT', delete: 'DELETE' } as const;
type Method = (typeof methods)[keyof typeof methods];
const methodOf = z.enum(['get', 'post', 'put', 'delete']).transform((name): Method => methods[name]);

/** One operation of the API, as it describes itself. */
export interface Operation {
  /** Its method and its path: what a test calls it by. */
  readonly name: string;
  readonly method: Method;
  readonly path: string;
  readonly parameters: readonly Parameter[];
  /** Type of the body, what it is described as, and an example where there is one. */
  readonly body: { readonly type: string; readonly schema: Schema; readonly example: unknown } | undefined;
  /** By status, what an answer's JSON is described as. */
  readonly answers: ReadonlyMap<number, Schema>;
  /** Nobody has to be signed on. */
  readonly open: boolean;
}

export interface Description {
  readonly operations: readonly Operation[];
  readonly schemas: Readonly<Record<string, Schema>>;
  readonly whole: unknown;
}

/** The description that the application serves. */
export async function described(t: TestApp): Promise<Description> {
  const { body: whole } = await request(t.server).get('/api/v1/openapi.json').expect(200);
  const { paths, components } = document.parse(whole);
  const operations = Object.entries(paths).flatMap(([path, item]) =>
    Object.entries(item).map(([name, of]): Operation => {
      const [body] = Object.entries(of.requestBody?.content ?? {});
      return {
        name: `${name} ${path.replace('/api/v1', '')}`,
        method: methodOf.parse(name),
        path,
        parameters: of.parameters,
        body: body === undefined ? undefined : { type: body[0], schema: body[1].schema ?? {}, example: body[1].example },
        answers: new Map(
          Object.entries(of.responses).flatMap(([status, answer]) => {
            const json = answer.content?.['application/json']?.schema;
            return json === undefined || status === 'default' ? [] : [[Number(status), json] as const];
          }),
        ),
        open: of.security === undefined,
      };
    }),
  );
  return { operations, schemas: components.schemas, whole };
}
