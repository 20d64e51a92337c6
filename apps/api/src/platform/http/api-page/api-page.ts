import type { OpenAPIObject } from '@nestjs/swagger';
import * as z from 'zod';
import { html, nothing, type Html } from './html.js';
import { anchorOf, fieldsOf, typeOf } from './schema-view.js';

const content = z.record(
  z.string(),
  z.looseObject({ schema: z.unknown().optional(), examples: z.record(z.string(), z.unknown()).optional() }),
);
const operation = z.looseObject({
  operationId: z.string(),
  summary: z.string(),
  tags: z.array(z.string()).default(['other']),
  parameters: z
    .array(z.looseObject({ name: z.string(), in: z.string(), required: z.boolean().default(false), schema: z.unknown().optional() }))
    .default([]),
  requestBody: z.looseObject({ content }).optional(),
  responses: z.record(z.string(), z.looseObject({ description: z.string().default(''), content: content.optional() })),
  'x-who-may': z.string().default(''),
});
const kind = z.looseObject({
  description: z.string().default(''),
  examples: z.array(z.unknown()).default([]),
  properties: z.record(z.string(), z.unknown()),
  'x-entry': z.looseObject({ says: z.string() }),
});

type Operation = z.infer<typeof operation> & { readonly method: string; readonly at: string };

/** The API's own page, from its description: every operation by area, every kind of entry, and every named schema. */
export function apiPage(document: OpenAPIObject): string {
  const operations = Object.entries(document.paths).flatMap(([at, item]) =>
    Object.entries(z.record(z.string(), z.unknown()).parse(item)).map(([method, raw]) => ({ ...operation.parse(raw), method, at })),
  );
  const tags = [...new Set(operations.flatMap((o) => o.tags))].sort();
  const schemas = Object.entries(document.components?.schemas ?? {}).sort(([a], [b]) => (a < b ? -1 : 1));
  const kinds = schemas.flatMap(([name, raw]) => (name.startsWith('Entry.') ? [{ name, ...kind.parse(raw) }] : []));
  const others = schemas.filter(([name]) => !name.startsWith('Entry.'));
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width" />
        <title>Bakehouse Ledger: the API</title>
        <link rel="stylesheet" href="/api/docs/page.css" />
      </head>
      <body>
        <div class="page">
          <nav aria-label="Contents">
            <ul>
              ${[...tags.map((tag) => html`<li><a href="#${tag}">${tag}</a></li>`)]}
              <li><a href="#kinds">kinds of entries</a></li>
              <li><a href="#schemas">schemas</a></li>
            </ul>
          </nav>
          <main>
            ${opening(document)}
            ${tags.map(
              (tag) =>
                html`<h2 id="${tag}">${tag}</h2>
                  ${operations.filter((o) => o.tags.includes(tag)).map(operationView)}`,
            )}
            <h2 id="kinds">Kinds of entries</h2>
            <p>
              What is recorded is an entry of one of these kinds, sent to <code>entries</code>, up to 200 at a time. Each is answered by
              itself.
            </p>
            ${kinds.map(kindView)}
            <h2 id="schemas">Schemas</h2>
            ${others.map(
              ([name, raw]) =>
                html`<details id="${anchorOf(name)}">
                  <summary>${name}</summary>
                  ${fieldsOf(raw)}
                </details>`,
            )}
          </main>
        </div>
      </body>
    </html>`.text;
}

const opening = ({ info }: OpenAPIObject): Html =>
  html` <h1>Bakehouse Ledger: the API</h1>
    <p>${info.description ?? ''}</p>
    <p>The same for programs: <a href="/api/v1/openapi.json">openapi.json</a> (OpenAPI 3.1).</p>
    <p>
      <strong>Caution.</strong> Limits, verdicts and recalls are only as good as the plan that a competent person has validated. The rules
      of your local food-safety authority come first.
    </p>
    <h3>Signing on</h3>
    <p>
      Sign on with a PIN. Programs send what that answers as <code>Authorization: Bearer …</code>; a browser is given a cookie. A tablet
      that was enrolled also sends <code>X-Device-Token</code>. An entry of a signed kind needs a signature as well:
      <code>POST /api/v1/signatures</code> gives one for the PIN, good for that entry alone.
    </p>
    <h3>Errors</h3>
    <p>
      Every error is a problem document (RFC 9457) with a stable <code>type</code>, a sentence that says what to do, and the field where
      there is one. The header <code>X-Request-Id</code> names the request in the service’s log.
    </p>`;

function operationView(o: Operation): Html {
  return html`<details id="${o.operationId}">
    <summary><span class="method">${o.method.toUpperCase()}</span> <code>${o.at}</code> <span class="faint">${o.summary}</span></summary>
    <p>${o['x-who-may']}</p>
    ${parametersOf(o)}
    ${
      o.requestBody === undefined
        ? nothing
        : html`<h3>Sent</h3>
            ${bodyOf(o.requestBody.content)}`
    }
    <h3>Answers</h3>
    ${Object.entries(o.responses).map(
      ([status, r]) =>
        html`<p><code>${status}</code> ${r.description}</p>
          ${bodyOf(r.content ?? {})}`,
    )}
  </details>`;
}

function parametersOf({ parameters }: Operation): Html {
  if (parameters.length === 0) return nothing;
  const rows = parameters.map(
    (p) =>
      html`<tr>
        <th scope="row">${p.name}</th>
        <td>${p.in}${p.required ? '' : ', may be left out'}</td>
        <td>${typeOf(p.schema)}</td>
      </tr>`,
  );
  return html`<h3>Parameters</h3>
    <table>
      <tbody>
        ${rows}
      </tbody>
    </table>`;
}

const bodyOf = (of: z.infer<typeof content>): Html =>
  html`${Object.entries(of).map(
    ([type, { schema }]) =>
      html`<p class="faint">${type}</p>
        ${schema === undefined ? nothing : fieldsOf(schema)}`,
  )}`;

const kindView = ({ name, description, examples, properties, 'x-entry': { says } }: z.infer<typeof kind> & { name: string }): Html =>
  html` <details id="${anchorOf(name)}">
    <summary><code>${name.slice('Entry.'.length)}</code> <span class="faint">${description}</span></summary>
    <p>${says}</p>
    <h3>Payload</h3>
    ${fieldsOf(properties['payload'])}
    <h3>Example</h3>
    <pre>${JSON.stringify(examples[0], null, 2)}</pre>
  </details>`;
