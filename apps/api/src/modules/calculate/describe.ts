import type { OpenAPIObject } from '@nestjs/swagger';
import { jsonSchemaOf } from '../../platform/http/index.js';
import { allCalculations } from './all.js';

/** Describes each calculation at a path of its own, with its example. */
const whoMay: object = { 'x-who-may': 'For anybody, signed on or not.' };

export function describeCalculations(document: OpenAPIObject): void {
  const problem = {
    description: 'A problem, and what to do about it',
    content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
  };
  for (const { name, title, input, output, example } of allCalculations) {
    document.paths[`/api/v1/calculate/${name}`] = {
      post: {
        tags: ['calculate'],
        operationId: `calculate-${name}`,
        summary: title,
        ...whoMay,
        requestBody: { required: true, content: { 'application/json': { schema: jsonSchemaOf(input, 'input'), example } } },
        responses: {
          200: {
            description: 'The answer with its explanation, source and cautions',
            content: { 'application/json': { schema: jsonSchemaOf(output, 'output') } },
          },
          default: problem,
        },
      },
    };
  }
}
