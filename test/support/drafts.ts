import request, { type Test } from 'supertest';
import type { TestApp } from './app.js';
import type { Caller } from './people.js';

/** Saves a draft over a revision; text is sent as it stands. */
export function save(t: TestApp, by: Caller, path: string, content: object | string, ifMatch: string | null): Test {
  const put = request(t.server)
    .put(`/api/v1${path}`)
    .set('authorization', `Bearer ${by.token}`)
    .set('content-type', 'application/json')
    .send(content);
  return ifMatch === null ? put : put.set('if-match', ifMatch);
}

/** Archives a draft. */
export const archived = (t: TestApp, by: Caller, path: string, ifMatch: string): Test =>
  request(t.server).delete(`/api/v1${path}`).set('authorization', `Bearer ${by.token}`).set('if-match', ifMatch);
