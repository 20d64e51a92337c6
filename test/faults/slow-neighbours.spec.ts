import { once } from 'node:events';
import { connect, type AddressInfo, type Socket } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { connected as onDatabase } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';

let t: TestApp;
beforeAll(async () => {
  t = await startTestApp({ env: { STALLED_SECONDS: '1', REQUEST_SECONDS: '2' } });
  await t.app.listen(0, '127.0.0.1');
});
afterAll(() => t.close());

/** A connection, and its other end in the service once it was closed there. */
async function connected(): Promise<{ socket: Socket; ended: Promise<unknown> }> {
  const { port } = t.server.address() as AddressInfo; // it listens
  const there = once(t.server, 'connection');
  const socket = connect(port, '127.0.0.1').on('error', () => undefined);
  const [other] = (await there) as [Socket];
  return { socket, ended: once(other, 'close') };
}

const head = (path: string, bytes: number): string =>
  `POST /api/v1/${path} HTTP/1.1\r\nhost: here\r\ncontent-type: application/json\r\ncontent-length: ${bytes}\r\n\r\n`;

async function heard(socket: Socket): Promise<string> {
  let text = '';
  socket.on('data', (bytes) => (text += bytes.toString()));
  await once(socket, 'close');
  return text;
}

describe('who keeps the service waiting is let go', () => {
  it.each(['calculate/lethality', 'sign-on'])('half a body, and then nothing, to %s: it is told so', async (path) => {
    const { socket, ended } = await connected();
    const told = heard(socket);
    socket.write(`${head(path, 1000)}{"profile":`);
    await ended;
    expect(await told).toMatch(/^HTTP\/1\.1 408 [^]*too-slow/);
  });

  it('half a head, and then nothing', async () => {
    const { socket, ended } = await connected();
    const told = heard(socket);
    socket.write('POST /api/v1/sign-on HTTP/1.1\r\nhost: he');
    await ended;
    expect(await told).toMatch(/^HTTP\/1\.1 408 [^]*too-slow/);
  });

  it('a body that comes one byte after the other', async () => {
    const { socket, ended } = await connected();
    const told = heard(socket);
    socket.write(head('sign-on', 100_000));
    const drop = setInterval(() => socket.write(' '), 100);
    await ended;
    clearInterval(drop);
    expect(await told).toMatch(/^HTTP\/1\.1 408 [^]*too-slow/);
  });

  it('a large answer that nobody reads', async () => {
    const { socket, ended } = await connected();
    socket.pause();
    const body = `{"values":[${Array.from({ length: 400_000 }, (_, i) => i % 7).join()}]}`;
    socket.write(head('calculate/individuals-chart', body.length) + body);
    await ended;
    socket.destroy();
  });

  it('and nobody else: who waits for the service gets the answer on the same connection', async () => {
    const { socket } = await connected();
    await onDatabase(t.database.ownerUrl, async (holder) => {
      await holder.query('BEGIN');
      await holder.query('LOCK TABLE _prisma_migrations IN ACCESS EXCLUSIVE MODE');
      const still = once(t.server, 'timeout'); // nothing moved for as long as a stalled one is waited for
      socket.write('GET /api/v1/health/ready HTTP/1.1\r\nhost: here\r\nconnection: close\r\n\r\n');
      const told = heard(socket);
      await still;
      await holder.query('COMMIT');
      expect(await told).toMatch(/^HTTP\/1\.1 200 [^]*"ready"/);
    });
  });
});
