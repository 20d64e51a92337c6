import { once } from 'node:events';
import { createServer } from 'node:net';
import { describe, expect, it } from '@jest/globals';
import { GatheringSocket } from './gathering-socket.js';

/** Counts the calls of the system. */
class Counted extends GatheringSocket {
  calls = 0;
  override _writev(...args: Parameters<NonNullable<GatheringSocket['_writev']>>): void {
    this.calls += 1;
    super._writev?.(...args);
  }
}

describe('a connection that gathers', () => {
  it('sends what is corked by itself many times in one turn in one call, whole and in order, and the next turn’s in another', async () => {
    const heard: Buffer[] = [];
    const server = createServer((peer) => {
      peer.on('data', (chunk) => heard.push(chunk));
      peer.on('end', () => peer.end());
    }).listen(0, '127.0.0.1');
    await once(server, 'listening');
    const address = server.address();
    const socket = new Counted();
    socket.connect(address !== null && typeof address === 'object' ? address.port : 0, '127.0.0.1');
    await once(socket, 'connect');
    const ask = (what: string): void => {
      socket.cork();
      for (const letter of what) socket.write(letter);
      socket.uncork();
    };
    socket.write('begin;');
    ask('abc');
    ask('def');
    ask('ghi');
    await new Promise(setImmediate);
    const first = socket.calls;
    ask('jkl');
    socket.end();
    socket.resume();
    await once(socket, 'close');
    server.close();
    expect([first, socket.calls]).toEqual([1, 2]);
    expect(Buffer.concat(heard).toString()).toBe('begin;abcdefghijkl');
  });
});
