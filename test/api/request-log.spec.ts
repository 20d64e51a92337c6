import { afterAll, afterEach, beforeAll, describe, expect, it, jest } from '@jest/globals';
import request from 'supertest';
import * as z from 'zod';
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
