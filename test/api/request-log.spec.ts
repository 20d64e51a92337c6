import { connect } from 'node:net';
import { afterAll, afterEach, beforeAll, describe, expect, it, jest } from '@jest/globals';
import request from 'supertest';
import * as z from 'zod';
import { ProblemFilter } from '../../apps/api/src/platform/http/problem.filter.js';
import { startTestApp, type TestApp } from '../support/app.js';

const line = z.looseObject({ context: z.string().optional(), message: z.unknown(), level: z.string() });

describe('the log as JSON', () => {
  let t: TestApp;
  beforeAll(async () => {
    t = await startTestApp({ env: { LOG_LEVEL: 'info', LOG_FORMAT: 'json' } });
  });
  afterEach(() => {
    jest.restoreAllMocks();
  });
  afterAll(() => t.close());

  it('has one line a request, by its route, with the number that the answer carries and nothing of what was in its address', async () => {
    let written = '';
    jest.spyOn(process.stdout, 'write').mockImplementation((text) => {
      written += String(text);
      return true;
    });
    const { headers } = await request(t.server).get('/api/v1/health?secret=in-the-address').expect(200);
    await request(t.server).get('/api/v1/sign-on/people?organisation=not-a-house');
    jest.restoreAllMocks();
    const lines = written
      .split('\n')
      .filter(Boolean)
      .map((text) => line.parse(JSON.parse(text)))
      .filter((l) => l.context === 'Request');
    expect(lines).toHaveLength(2);
    expect(lines[0]).toMatchObject({
      level: 'log',
      message: { method: 'GET', route: '/api/v1/health', status: 200, request: headers['x-request-id'] },
    });
    expect(written).not.toContain('in-the-address');
    expect(written).not.toContain('not-a-house');
  });
});

describe('the log of a request that was broken off', () => {
  let t: TestApp;
  let answered: Promise<void>;
  beforeAll(async () => {
    const answer = ProblemFilter.prototype.catch;
    answered = new Promise((resolve) => {
      // before the application takes the method
      jest.spyOn(ProblemFilter.prototype, 'catch').mockImplementation(function (this: ProblemFilter, error, host) {
        answer.call(this, error, host);
        resolve();
      });
    });
    t = await startTestApp({ env: { LOG_LEVEL: 'error', LOG_FORMAT: 'json' } });
    await t.app.listen(0, '127.0.0.1');
  });
  afterAll(async () => {
    jest.restoreAllMocks();
    await t.close();
  });

  it('calls it no fault of the service’s', async () => {
    const told: string[] = [];
    const keep = (text: unknown): boolean => told.push(String(text)) > 0;
    jest.spyOn(process.stdout, 'write').mockImplementation(keep);
    jest.spyOn(process.stderr, 'write').mockImplementation(keep);
    const socket = connect(Number(new URL(await t.app.getUrl()).port), '127.0.0.1');
    const head = 'POST /api/v1/sign-on HTTP/1.1\r\nhost: a\r\ncontent-type: application/json\r\ncontent-length: 100\r\n\r\n{"half":';
    socket.write(head, () => socket.destroy());
    await answered;
    expect(told.join('')).not.toContain('"level":"error"');
  });
});
