import { readFileSync, writeFileSync } from 'node:fs';
import openapiTS, { astToString, COMMENT_HEADER } from 'openapi-typescript';
import ts from 'typescript';

/** The types of the API from its description. Run as `node libs/tooling/generators/api-types.mjs <description> <to>`. */
const [from, to] = process.argv.slice(2);
const blob = ts.factory.createTypeReferenceNode('Blob');

/** An object of which only the names of its keys are known, in the form that TypeScript can check. */
const withItsKeys = (_, schema) =>
  Array.isArray(schema?.required) && schema.additionalProperties && !schema.properties
    ? {
        ...schema,
        properties: Object.fromEntries(schema.required.map((key) => [key, schema.additionalProperties])),
        additionalProperties: false,
      }
    : schema;

const types = await openapiTS(JSON.parse(readFileSync(from, 'utf8'), withItsKeys), {
  transform: (schema) => (schema.format === 'binary' ? blob : undefined), // files, which plain JSON types call strings
});
writeFileSync(to, `${COMMENT_HEADER}${astToString(types)}`);
