import { once } from 'node:events';
import { connect, type AddressInfo, type Socket } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { CalculateController } from '../../apps/api/src/modules/calculate/calculate.controller.js';
import { startTestApp, type TestApp } from '../support/app.js';

let t: TestApp;
beforeAll(async () => {
  t = await startTestApp({ env: { TRUST_PROXY: '1' } });
  await t.app.listen(0, '127.0.0.1');
});
afterAll(() => t.close());

/** Every point of the profile is the same but the last: a number of bytes that is known. */
const profile = (points: number): string =>
  `{"profile":[${'{"minutes":0,"celsius":70},'.repeat(points - 1)}{"minutes":2,"celsius":70}],"referenceCelsius":70,"zCelsius":7.5}`;
const sums = '/api/v1/calculate/lethality';
const post = (body: string, from: string) =>
  request(t.server).post(sums).set('content-type', 'application/json').set('x-forwarded-for', from).send(body);

/** A request of which only the head was sent: its size counts from then on, and until it ends. */
async function begun(bytes: number, from: string): Promise<Socket> {
  const { port } = t.server.address() as AddressInfo; // it listens
  const socket = connect(port, '127.0.0.1').on('error', () => undefined);
  await once(socket, 'connect');
  const head = [`POST ${sums} HTTP/1.1`, `host: 127.0.0.1:${port}`, 'content-type: application/json', 'expect: 100-continue'];
  socket.write(`${[...head, `x-forwarded-for: ${from}`, `content-length: ${bytes}`].join('\r\n')}\r\n\r\n`);
  await once(socket, 'data'); // 100 Continue: it was let in
  return socket;
}

const mb = 1024 * 1024;

describe('sums without sign-on', () => {
  it('are let in by their size from one address, and by what the service has room for from all', async () => {
    const sockets = [await begun(60 * mb, '192.0.2.1'), await begun(60 * mb, '192.0.2.1')];
    const spent = await post(profile(400_000), '192.0.2.1');
    expect([spent.status, spent.body.type, Number(spent.headers['retry-after'])]).toEqual([
      429,
      expect.stringMatching(/too-many-requests$/),
      expect.any(Number),
    ]);
    sockets.push(await begun(60 * mb, '192.0.2.2'));
    const full = await post(profile(1_000_000), '192.0.2.3');
    expect([full.status, full.body.type, full.headers['retry-after']]).toEqual([503, expect.stringMatching(/unavailable$/), '15']);
    expect((await post(profile(10), '192.0.2.3')).status).toBe(200); // a small one has room, and does not wait behind the large
    for (const socket of sockets) socket.destroy();
    let after = full;
    while (after.status === 503) after = await post(profile(1_000_000), '192.0.2.3'); // the service hears of the ends when it looks
    expect([after.status, after.body.equivalentMinutes]).toEqual([200, 2]);
  });

  it('are worked out beside the thread that answers: it turns meanwhile', async () => {
    let turns = 0;
    const turn = (): NodeJS.Immediate =>
      setImmediate(() => {
        turns += 1;
        next = turn();
      });
    let next = turn();
    const answer = await t.app.get(CalculateController).calculate('lethality', Buffer.from(profile(100_000)));
    clearImmediate(next);
    expect([turns > 0, JSON.parse(answer.toString())]).toEqual([true, expect.objectContaining({ equivalentMinutes: 2 })]);
  });
});
