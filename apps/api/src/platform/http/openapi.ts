import type { INestApplication } from '@nestjs/common';
import { DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';

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
  const document = SwaggerModule.createDocument(app, head);
  const content = { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } };
  for (const item of Object.values(document.paths)) {
    for (const method of methods) {
      const operation = item[method];
      if (operation) operation.responses['default'] = { description: 'A problem, and what to do about it', content };
    }
  }
  for (const more of extend) more(document);
  return document;
}

/** Serves the document at /api/v1/openapi.json and a page for it at /api/docs. */
export function serveApiPage(app: INestApplication, extend: readonly Extension[]): void {
  SwaggerModule.setup('api/docs', app, () => describeApi(app, extend), {
    raw: ['json'],
    jsonDocumentUrl: 'api/v1/openapi.json',
    customSiteTitle: 'Bakehouse Ledger: the API',
  });
}
