import type { INestApplication } from '@nestjs/common';
import { DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { apiPage, style } from './api-page/index.js';
import { inDialect } from './dialect.js';

const methods = ['get', 'put', 'post', 'delete', 'patch'] as const;

/** Adds what the routes alone do not tell. */
export type Extension = (document: OpenAPIObject) => void;

/** The OpenAPI 3.1 document of every route, with the problem that any of them may answer. The health routes bring the component. */
export function describeApi(app: INestApplication, extend: readonly Extension[] = []): OpenAPIObject {
  const head = new DocumentBuilder()
    .setTitle('Bakehouse Ledger')
    .setVersion('1')
    .setOpenAPIVersion('3.1.0')
    .setDescription('Records are never changed or deleted. Errors are problem documents (RFC 9457).')
    .build();
  const document = SwaggerModule.createDocument(app, head, { operationIdFactory: nameOf });
  const content = { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } };
  for (const item of Object.values(document.paths)) {
    for (const method of methods) {
      const operation = item[method];
      if (operation) operation.responses['default'] = { description: 'A problem, and what to do about it', content };
    }
  }
  for (const more of extend) more(document);
  return inDialect(document);
}

/** `GoodsController.deliveries` → `goods-deliveries`: a name for programs and for a link, that stays while the route stays. */
const nameOf = (controller: string, method: string): string =>
  [controller.replace(/Controller$/, ''), method].map((word) => word.replace(/(?<=[a-z])[A-Z]/g, '-$&').toLowerCase()).join('-');

/** Serves the document at /api/v1/openapi.json and a page for it at /api/docs. Both are made once, when somebody first asks. */
export function serveApiPage(app: INestApplication, instance: FastifyInstance, extend: readonly Extension[]): void {
  const once = <T>(make: () => T): (() => T) => {
    let made: T | undefined;
    return () => (made ??= make());
  };
  const document = once(() => describeApi(app, extend));
  const page = once(() => apiPage(document()));
  const text = (reply: FastifyReply, type: string, body: string) => reply.type(`${type}; charset=utf-8`).send(body);
  instance.get('/api/v1/openapi.json', (_request, reply) => text(reply, 'application/json', JSON.stringify(document())));
  instance.get('/api/docs', (_request, reply) => text(reply, 'text/html', page()));
  instance.get('/api/docs/page.css', (_request, reply) => text(reply, 'text/css', style));
}
