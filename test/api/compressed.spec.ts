import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Readable } from 'node:stream';
import { brotliCompressSync, brotliDecompressSync, gunzipSync, gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Controller, Get, Module, Post, StreamableFile } from '@nestjs/common';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { serveModule } from '../../apps/api/src/app.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';

const rows = Array.from({ length: 400 }, (_, i) => ({ id: i, name: 'sourdough, white' }));

@Controller('doughs')
class Doughs {
  @Get()
  all(): unknown {
    return rows;
  }

  @Get('one')
  one(): unknown {
    return rows[0];
  }

  @Get('as-stream')
  stream(): StreamableFile {
    return new StreamableFile(Readable.from(rows.map((r) => JSON.stringify(r))), { type: 'application/json' });
  }

  @Get('paper')
  paper(): StreamableFile {
    return new StreamableFile(Buffer.from(JSON.stringify(rows)), { type: 'application/pdf' });
  }

  @Post()
  secret(): unknown {
    return rows;
  }
}

@Module({ controllers: [Doughs] })
class DoughModule {}

const page = '<title>the table</title>';
const script = `export const words = ${JSON.stringify(rows)};`;

describe('what goes over the wire', () => {
  let app: NestFastifyApplication;
  let webFolder: string;
  /** The bytes as they are sent, and how they are packed. */
  const sent = async (url: string, takes: string | undefined, method: 'GET' | 'POST' = 'GET') => {
    const answer = await app.inject({ method, url, headers: takes === undefined ? {} : { 'accept-encoding': takes } });
    return { bytes: answer.rawPayload, packed: answer.headers['content-encoding'], headers: answer.headers };
  };

  beforeAll(async () => {
    webFolder = await mkdtemp(path.join(tmpdir(), 'web-'));
    await mkdir(path.join(webFolder, 'assets'));
    await writeFile(path.join(webFolder, 'index.html'), page);
    const file = path.join(webFolder, 'assets/index-4f2a.js');
    await writeFile(file, script);
    await writeFile(`${file}.br`, brotliCompressSync(script));
    await writeFile(`${file}.gz`, gzipSync(script));
    app = await serveModule(DoughModule, readConfig({ LOG_LEVEL: 'silent' }), webFolder);
  });
  afterAll(async () => {
    await app.close();
    await rm(webFolder, { recursive: true });
  });

  it('is a file of the web app as the build packed it, with its own type, kept for ever by its name and apart for each way of packing', async () => {
    const address = '/assets/index-4f2a.js';
    const [brotli, gzip, plain] = [await sent(address, 'gzip, deflate, br'), await sent(address, 'gzip'), await sent(address, undefined)];
    expect([brotli.packed, gzip.packed, plain.packed]).toEqual(['br', 'gzip', undefined]);
    expect(brotliDecompressSync(brotli.bytes).toString()).toBe(script);
    expect(gunzipSync(gzip.bytes).toString()).toBe(script);
    expect(plain.bytes.toString()).toBe(script);
    for (const { headers } of [brotli, gzip, plain])
      expect(headers).toMatchObject({
        'content-type': expect.stringMatching(/javascript/),
        'cache-control': 'public, max-age=31536000, immutable',
        vary: expect.stringMatching(/accept-encoding/i),
      });
  });

  it('is a file without a packed copy as it is', async () => {
    const { bytes, packed, headers } = await sent('/recall/12', 'br');
    expect([bytes.toString(), packed, headers['cache-control']]).toEqual([page, undefined, 'no-cache']);
  });

  it.each(['/api/v1/doughs', '/api/v1/doughs/as-stream'])('is a long answer packed, where that is taken: %s', async (address) => {
    const [brotli, gzip, plain] = [await sent(address, 'gzip, deflate, br'), await sent(address, 'gzip'), await sent(address, undefined)];
    expect([brotli.packed, gzip.packed, plain.packed]).toEqual(['br', 'gzip', undefined]);
    expect(brotliDecompressSync(brotli.bytes)).toEqual(plain.bytes);
    expect(gunzipSync(gzip.bytes)).toEqual(plain.bytes);
    expect(brotli.headers.vary).toMatch(/accept-encoding/i);
    expect(brotli.bytes.length).toBeLessThan(plain.bytes.length / 5);
  });

  it('is never packed where it is small, where a paper is packed already, or where it may hold a secret', async () => {
    expect((await sent('/api/v1/doughs/one', 'br')).packed).toBeUndefined();
    expect((await sent('/api/v1/doughs/paper', 'br')).packed).toBeUndefined();
    const posted = await sent('/api/v1/doughs', 'br', 'POST');
    expect([posted.packed, JSON.parse(posted.bytes.toString())]).toEqual([undefined, rows]);
  });
});
