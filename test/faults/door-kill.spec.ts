import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { EntryResult } from '@bakehouse/contracts';
import { systemClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse, celsius, g } from '../support/bakehouse.js';
import { mulberry } from '../support/seeded.js';
import { size } from '../support/size.js';
import { freePort, root, Start } from '../support/start.js';
import { verified } from '../support/verified.js';

type Entry = Record<string, unknown> & { id: string };
type Receipt = Extract<EntryResult, { as: 'recorded' }>['receipt'];

const seed = 20_261_126;
const kills = size(4, 30);

/** The service as a process that is killed again and again; senders wait until it is there again. */
class Mortal {
  up: Promise<void>;
  died = 0;
  private service: Start;

  constructor(
    private readonly port: number,
    private readonly database: string,
  ) {
    this.service = this.start(); // the whole of `npm start`: it builds where that is needed
    this.up = this.service.ready();
  }

  get address(): string {
    return `http://127.0.0.1:${this.port}/api/v1`;
  }

  killAndStart(): void {
    this.died += 1;
    const old = this.service;
    this.up = (async () => {
      old.kill('SIGKILL');
      await old.ended;
      this.service = this.start([process.execPath, path.join(root, 'apps/api/dist/main.js')]);
      await this.service.ready();
    })();
  }

  stop(): Promise<number | null> {
    return this.service.stop();
  }

  private start(command?: readonly [string, ...string[]]): Start {
    return new Start('/nowhere', this.port, command, { DATABASE_URL: this.database });
  }
}

/** Sends until every entry is acknowledged, a few at a time, the same ones again whenever no answer came. Tells of each request that is out. */
async function sendAll(
  b: Bakehouse,
  to: Mortal,
  entries: readonly Entry[],
  random: () => number,
  out: () => void,
  acknowledged: Map<string, Receipt[]>,
): Promise<void> {
  for (let next = 0; next < entries.length;) {
    const some = entries.slice(next, next + 1 + Math.floor(random() * 6));
    await to.up;
    const answer = send(b, to, some);
    out();
    const results = await answer;
    if (!results) continue; // killed before it could say so: the same again
    for (const r of results) {
      if (r.as !== 'recorded' && r.as !== 'already-recorded') throw new Error(JSON.stringify(r));
      acknowledged.set(r.id, [...(acknowledged.get(r.id) ?? []), r.receipt]);
    }
    next += some.length;
  }
}

/** What came of them; undefined where the connection broke before the whole answer was here. */
async function send(b: Bakehouse, { address }: Mortal, entries: readonly Entry[]): Promise<EntryResult[] | undefined> {
  const broken = (): undefined => undefined;
  const response = await fetch(`${address}/sites/${b.site}/entries`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', authorization: `Bearer ${b.baker.caller.token}` },
    body: JSON.stringify(entries),
  }).catch(broken);
  const body = await response?.text().catch(broken);
  if (response === undefined || body === undefined) return undefined;
  if (response.status !== 200) throw new Error(`answered ${response.status}: ${body}`);
  return JSON.parse(body) as EntryResult[]; // the route's contract
}

/** Goods come in, are weighed in, a reading is taken, the lot is sent out, and only then it turns out that the delivery was written down wrongly. */
function story(b: Bakehouse, make: string, n: number): Entry[] {
  const lot = b.newId();
  const delivery = (kg: string) => ({
    supplier: null,
    noteNumber: `N ${n}`,
    photo: null,
    unattended: false,
    lines: [b.line('flour', lot, { quantity: { figure: kg, unit: 'kg' } })],
  });
  const received = b.house.entry({ kind: 'delivery-received', payload: delivery('25') });
  const weighed = b.house.entry({
    kind: 'weighed-in',
    after: [received.id],
    payload: { make, lines: [b.into('flour', String(1000 + n), lot)] },
  });
  const reading = b.house.entry({
    kind: 'reading-taken',
    payload: { ...b.reading('dough', 'make', make, '26'), value: celsius(String(20 + (n % 12))) },
  });
  const sent = b.house.entry({
    kind: 'sent-out',
    after: [received.id],
    payload: {
      channel: 'dispatch',
      customer: b.party('cafeA'),
      unattended: false,
      until: null,
      lines: [{ lots: [lot], quantity: g('500'), how: 'weighed' }],
    },
  });
  const corrected = b.house.entry({
    kind: 'delivery-received',
    corrects: received.id,
    after: [sent.id],
    words: { reason: 'kilograms typed for pounds' },
    payload: delivery('11.34'),
  });
  return [received, weighed, reading, sent, corrected];
}

describe('a service that is killed while it records', () => {
  let t: TestApp;
  let b: Bakehouse;
  let mortal: Mortal;
  let entries: Entry[];
  const acknowledged = new Map<string, Receipt[]>();
  let before: number;

  beforeAll(async () => {
    t = await startTestApp({ clock: systemClock });
    b = await Bakehouse.found(t);
    const make = await b.begun('white', systemClock.now().toISOString());
    before = (await verified(t, b.house)).entries.get(b.site) ?? 0;
    mortal = new Mortal(await freePort(), t.database.serviceUrl);
    const random = mulberry(seed);
    const lists = Array.from({ length: 4 }, (_, c) => Array.from({ length: size(20, 160) }, (_x, n) => story(b, make, c * 100 + n)).flat());
    entries = lists.flat();
    // After a random number of requests, at a random turn of the event loop after one went out, the process is killed.
    let until = 3 + Math.floor(random() * 8);
    const out = (): void => {
      until -= 1;
      if (until > 0 || mortal.died >= kills) return;
      until = 10 + Math.floor(random() * 14);
      const turns = Math.floor(random() * 40);
      const turn = (left: number): void => {
        if (left === 0) mortal.killAndStart();
        else setImmediate(turn, left - 1);
      };
      turn(turns);
    };
    await Promise.all(lists.map((list, c) => sendAll(b, mortal, list, mulberry(seed + c), out, acknowledged)));
  });
  afterAll(async () => {
    await mortal.stop();
    await t.close();
  });

  it('was killed as often as it should be, and acknowledged everything in the end', () => {
    expect(mortal.died).toBe(kills);
    expect(acknowledged.size).toBe(entries.length);
  });

  it('has everything that it acknowledged exactly once, where it said it was, and nothing else', async () => {
    await connected(t.database.ownerUrl, async (client) => {
      const { rows } = await client.query<{ id: string; seq: string; leaf: Buffer }>(
        'SELECT id, seq, leaf FROM entry WHERE book = $1 ORDER BY seq',
        [b.site],
      );
      expect(rows.map((r) => Number(r.seq))).toEqual(rows.map((_, i) => i));
      expect(rows).toHaveLength(before + entries.length);
      const stored = new Map(rows.map((r) => [r.id, { seq: Number(r.seq), leaf: r.leaf.toString('hex') }]));
      for (const { id } of entries) {
        for (const { seq, leaf } of acknowledged.get(id) ?? []) expect({ seq, leaf }).toEqual(stored.get(id));
      }
    });
  });

  it('verifies in all three passes, and its rebuilt projections equal the earlier ones', async () => {
    expect((await verified(t, b.house)).faults).toEqual([]);
  });

  it('has the corrected amounts, whatever came between: 11.34 kg in, 500 g out', async () => {
    await connected(t.database.ownerUrl, async (client) => {
      const { rows } = await client.query<{ amounts: string }>(
        "SELECT DISTINCT l.mg || ' in, ' || d.mg || ' out' AS amounts FROM lot l JOIN departure d ON d.lot = l.id WHERE l.book = $1 AND l.type = 'received'",
        [b.site],
      );
      expect(rows).toEqual([{ amounts: '11340000 in, 500000 out' }]);
    });
  });
});
