import { connect, type Socket } from 'node:net';

/** How a bad neighbour behaves: a head that never ends, a body of one byte at a time, an answer that is not read, or nothing said at all. */
export const ways = ['half a head', 'a dripping body', 'an unread answer', 'silence'] as const;
export type Way = (typeof ways)[number];

const body = JSON.stringify({ values: Array.from({ length: 5_000 }, (_, i) => i % 7) });
const post = (path: string, length: number): string =>
  `POST /api/v1/${path} HTTP/1.1\r\nhost: here\r\ncontent-type: application/json\r\ncontent-length: ${length}\r\n\r\n`;
const begins: Readonly<Record<Way, string>> = {
  'half a head': 'POST /api/v1/sign-on HTTP/1.1\r\nhost: he',
  'a dripping body': post('sign-on', 100_000),
  'an unread answer': `${post('calculate/individuals-chart', body.length)}${body}`,
  silence: '',
};
const dripEveryMs = 500;
const againAfterMs = 200;

/** Clients that never behave, from an address of their own; each comes again once it was let go. */
export class Crowd {
  private readonly sockets = new Set<Socket>();
  private readonly dripping = new Set<Socket>();
  private readonly drip: NodeJS.Timeout;
  private over = false;
  /** How often one of them was let go. */
  letGo = 0;

  constructor(
    private readonly port: number,
    private readonly from: string,
  ) {
    this.drip = setInterval(() => {
      for (const socket of this.dripping) socket.write(' ');
    }, dripEveryMs);
  }

  /** Answers once all of them are connected. */
  async come(count: number): Promise<void> {
    for (let i = 0; i < count; i += 1) await this.one(ways[i % ways.length] ?? 'silence');
  }

  private one(way: Way): Promise<void> {
    return new Promise((resolve) => {
      const socket = connect({ port: this.port, host: '127.0.0.1', localAddress: this.from }, () => {
        if (begins[way] !== '') socket.write(begins[way]);
        if (way === 'a dripping body') this.dripping.add(socket);
        resolve();
      });
      if (way === 'an unread answer') socket.pause();
      else socket.resume();
      this.sockets.add(socket);
      socket.on('error', () => undefined);
      socket.once('close', () => {
        this.sockets.delete(socket);
        this.dripping.delete(socket);
        resolve();
        if (this.over) return;
        this.letGo += 1;
        setTimeout(() => this.over || void this.one(way), againAfterMs);
      });
    });
  }

  go(): void {
    this.over = true;
    clearInterval(this.drip);
    for (const socket of this.sockets) socket.destroy();
  }
}
