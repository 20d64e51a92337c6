import { expect } from '@jest/globals';
import type { Response } from 'supertest';

/** A problem by RFC 9457 that says what to do, in its own media type, and nothing of how we are built. */
export function expectProblem({ status, body, text, headers }: Response, of: unknown): void {
  expect([of, status >= 400 && status < 500, headers['content-type']]).toEqual([of, true, 'application/problem+json; charset=utf-8']);
  expect([of, body]).toEqual([
    of,
    expect.objectContaining({
      type: expect.stringMatching(/\/problems\/[a-z-]+$/),
      status,
      title: expect.any(String),
      detail: expect.stringMatching(/.{15}/),
    }),
  ]);
  expect([of, /node_modules|\.ts\b|Error:|\n\s+at |SELECT |pg_/.test(text)]).toEqual([of, false]);
}
