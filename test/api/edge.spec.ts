import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Body, Controller, Get, Module, Post } from '@nestjs/common';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import request, { type Response } from 'supertest';
import * as z from 'zod';
import { serveModule } from '../../apps/api/src/app.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { Limits, ProblemException, usualBodyLimit } from '../../apps/api/src/platform/http/index.js';

const dough = z.strictObject({ name: z.string(), pieces: z.array(z.strictObject({ grams: z.int().positive() })) });

@Controller('doughs')
class Doughs {
  @Post()
  add(@Body({ schema: dough }) body: z.infer<typeof dough>): unknown {
    return { pieces: body.pieces.length };
  }

  @Post('large')
  @Limits({ bodyBytes: 4 * 1024 * 1024 })
  large(@Body() body: { text: string }): unknown {
    return { length: body.text.length };
  }

  @Get('failing/:how')
  fail(): never {
    throw new Error('secret: the oven password is 1234');
  }

  @Get('gone')
  gone(): never {
    throw Object.assign(new Error('terminating connection'), { code: '57P01' });
  }

  @Get('refused')
  refuse(): never {
    throw new ProblemException(
      { problem: 'unacceptable-value', field: 'pieces.0.grams', acceptable: '1 to 5000 g' },
      { 'retry-after': '30' },
    );
  }
}

@Module({ controllers: [Doughs] })
class DoughModule {}

/** Every problem has the members of RFC 9457 §3.1, its own media type, and no trace of how we are built. */
function expectProblem(response: Response, status: number, code: string): void {
  expect(response.headers['content-type']).toBe('application/problem+json; charset=utf-8');
  expect(response.body).toMatchObject({
    type: `https://bakehouse-ledger.example/problems/${code}`,
    status,
    title: expect.any(String),
    detail: expect.any(String),
  });
  expect(response.status).toBe(status);
  expect(response.body.instance).toBe(`urn:uuid:${response.headers['x-request-id']}`);
  expect(response.text).not.toMatch(/secret|node_modules|\.ts|\.js|Exception|stack/);
}

describe('the edge', () => {
  let app: NestFastifyApplication;
  let webFolder: string;
  const ask = (): ReturnType<typeof request> => request(app.getHttpServer());

  beforeAll(async () => {
    webFolder = await mkdtemp(path.join(tmpdir(), 'web-'));
    await mkdir(path.join(webFolder, 'assets'));
    await writeFile(path.join(webFolder, 'index.html'), '<title>the table</title>');
    await writeFile(path.join(webFolder, 'assets/index-4f2a.js'), 'export {};');
    app = await serveModule(DoughModule, readConfig({ LOG_LEVEL: 'silent' }), webFolder);
  });
  afterAll(async () => {
    await app.close();
    await rm(webFolder, { recursive: true });
  });

  it('takes what fits', async () => {
    const response = await ask()
      .post('/api/v1/doughs')
      .send({ name: 'טעים 🥐', pieces: [{ grams: 580 }] });
    expect([response.status, response.body]).toEqual([201, { pieces: 1 }]);
  });

  it('names the field that does not fit', async () => {
    const response = await ask()
      .post('/api/v1/doughs')
      .send({ name: 'white', pieces: [{ grams: 580 }, { grams: 'much' }] });
    expectProblem(response, 400, 'malformed');
    expect(response.body.field).toBe('pieces.1.grams');
  });

  it.each(['{"name":', '', 'dough', '{"name": "a"} {"name": "b"}'])('refuses a body that is not JSON: %j', async (body) => {
    expectProblem(await ask().post('/api/v1/doughs').set('content-type', 'application/json').send(body), 400, 'malformed-json');
  });

  it('lets no body reach into prototypes', async () => {
    expectProblem(
      await ask().post('/api/v1/doughs').set('content-type', 'application/json').send('{"__proto__": {"admin": true}}'),
      400,
      'malformed',
    );
  });

  it('refuses a form that it does not read', async () => {
    expectProblem(await ask().post('/api/v1/doughs').set('content-type', 'text/csv').send('name,pieces'), 415, 'unsupported-media-type');
  });

  it('refuses what is larger than the usual limit, and takes it where a route says so', async () => {
    const text = 'x'.repeat(usualBodyLimit);
    expectProblem(await ask().post('/api/v1/doughs').send({ text }), 413, 'too-large');
    expect((await ask().post('/api/v1/doughs/large').send({ text })).body).toEqual({ length: usualBodyLimit });
    expectProblem(
      await ask()
        .post('/api/v1/doughs/large')
        .send({ text: `${text}${text}` }),
      413,
      'too-large',
    );
  });

  it('answers a body of 50 MB with a problem', async () => {
    expectProblem(
      await ask()
        .post('/api/v1/doughs')
        .send({ text: 'x'.repeat(50_000_000) }),
      413,
      'too-large',
    );
  });

  it('tells a wrong method from a wrong address', async () => {
    const response = await ask().delete('/api/v1/doughs');
    expectProblem(response, 405, 'method-not-allowed');
    expect([response.headers['allow'], response.body.acceptable]).toEqual(['POST', 'POST']);
    expectProblem(await ask().post('/api/v1/doughs/failing/badly'), 405, 'method-not-allowed');
    expectProblem(await ask().get('/api/v1/bread'), 404, 'not-found');
    expectProblem(await ask().get('/api/v1/doughs/failing'), 404, 'not-found');
    expectProblem(await ask().get('/api/v1/%E0%A4%A'), 400, 'malformed');
  });

  it('says nothing of how it failed', async () => {
    expectProblem(await ask().get('/api/v1/doughs/failing/badly'), 500, 'internal');
    expectProblem(await ask().get('/api/v1/doughs/gone'), 503, 'unavailable');
  });

  it('answers a refusal with its field, what would be accepted, and its headers', async () => {
    const response = await ask().get('/api/v1/doughs/refused');
    expectProblem(response, 422, 'unacceptable-value');
    expect(response.body).toMatchObject({
      field: 'pieces.0.grams',
      acceptable: '1 to 5000 g',
      detail: expect.stringContaining('Acceptable: 1 to 5000 g.'),
    });
    expect(response.headers['retry-after']).toBe('30');
  });

  it('takes no writing from another site', async () => {
    expectProblem(
      await ask().post('/api/v1/doughs').set('sec-fetch-site', 'cross-site').send({ name: 'a', pieces: [] }),
      403,
      'cross-site',
    );
    expectProblem(
      await ask().post('/api/v1/doughs').set('origin', 'https://elsewhere.example').send({ name: 'a', pieces: [] }),
      403,
      'cross-site',
    );
    expect((await ask().post('/api/v1/doughs').set('sec-fetch-site', 'same-origin').send({ name: 'a', pieces: [] })).status).toBe(201);
  });

  it.each(['/', '/api/v1/doughs/refused', '/api/v1/nothing', '/api/docs'])('guards %s with its headers', async (address) => {
    const { headers } = await ask().get(address);
    expect(headers).toMatchObject({ 'x-content-type-options': 'nosniff', 'referrer-policy': 'no-referrer', 'x-frame-options': 'DENY' });
    expect(headers['content-security-policy']).toMatch(/default-src 'self'.*frame-ancestors 'none'/);
    expect(headers['content-security-policy']).not.toMatch(/script-src[^;]*unsafe/);
    expect(headers['x-powered-by']).toBeUndefined();
  });

  it('keeps no answer of the API, and of the web app only what carries its hash', async () => {
    expect((await ask().get('/api/v1/doughs/refused')).headers['cache-control']).toBe('no-store');
    expect((await ask().get('/')).headers['cache-control']).toBe('no-cache');
    expect((await ask().get('/assets/index-4f2a.js')).headers['cache-control']).toBe('public, max-age=31536000, immutable');
  });

  it('gives the web app’s one page for every address of its own, and nothing instead of a missing file', async () => {
    for (const address of ['/', '/table/tonight', '/recall/12?print=1'])
      expect((await ask().get(address)).text).toBe('<title>the table</title>');
    expectProblem(await ask().get('/assets/index-gone.js'), 404, 'not-found');
    expectProblem(await ask().get('/api/bread'), 404, 'not-found');
    expectProblem(await ask().get('/..%2f..%2fpackage.json'), 404, 'not-found');
  });
});
