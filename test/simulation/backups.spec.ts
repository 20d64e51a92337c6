import { rm } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { SentEnvelope } from '@bakehouse/kernel';
import { newKeyPair, takeBackup, type TakenBackup } from '../../apps/api/src/platform/backups/index.js';
import { systemClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse, celsius } from '../support/bakehouse.js';
import { restoreBackup, tableHashes } from '../support/restored.js';
import { mulberry } from '../support/seeded.js';
import { size } from '../support/size.js';
import { ownFolder } from '../support/folder.js';

const seed = 20_261_127;
const backups = size(3, 25);
const writers = size(3, 8);

interface Acknowledged {
  readonly id: string;
  readonly seq: number;
  readonly leaf: string;
}

/** A backup, what had been acknowledged when it was asked for, and how much more had been when it was there. */
interface Moment {
  readonly taken: TakenBackup;
  readonly before: readonly Acknowledged[];
  readonly meanwhile: number;
}

describe('backups at random moments while everybody records', () => {
  let t: TestApp;
  let b: Bakehouse;
  let folder: string;
  let secret: string;
  const acknowledged: Acknowledged[] = [];
  const moments: Moment[] = [];
  let quiet: TakenBackup;

  beforeAll(async () => {
    t = await startTestApp({ clock: systemClock, env: { DATABASE_POOL: '10' } });
    b = await Bakehouse.found(t);
    folder = await ownFolder('backups-');
    const keys = await newKeyPair();
    secret = keys.secret;
    let n = 0;
    const take = (): Promise<TakenBackup> =>
      takeBackup({
        serviceUrl: t.database.serviceUrl,
        folder: path.join(folder, String((n += 1))),
        recipients: [keys.recipient],
        sealKey: null,
        clock: systemClock,
      });
    const make = await b.begun('white', systemClock.now().toISOString());
    let ended = false;
    const recording = Array.from({ length: writers }, async (_, w) => {
      const random = mulberry(seed + w);
      while (!ended) await send(some(b, make, random));
    });
    const random = mulberry(seed);
    while (moments.length < backups) {
      const until = acknowledged.length + Math.floor(random() * 60);
      while (acknowledged.length < until) await new Promise(setImmediate);
      const before = acknowledged.slice();
      const taken = await take();
      moments.push({ taken, before, meanwhile: acknowledged.length - before.length });
    }
    ended = true;
    await Promise.all(recording);
    quiet = await take();
  });
  afterAll(async () => {
    await t.close();
    await rm(folder, { recursive: true });
  });

  async function send(entries: readonly SentEnvelope[]): Promise<void> {
    for (const result of await b.baker.send(entries)) {
      if (result.as !== 'recorded') throw new Error(JSON.stringify(result));
      acknowledged.push({ id: result.id, seq: result.receipt.seq, leaf: result.receipt.leaf });
    }
  }

  it('are taken while records come in', () => {
    expect(moments.filter(({ meanwhile }) => meanwhile === 0)).toEqual([]);
  });

  it('hold, of each book, the entries up to one of them: all that was acknowledged before, bytes and words as they are; and verify', async () => {
    const all = await contentOf(t.database.ownerUrl);
    for (const { taken, before } of moments) {
      const { code, said, database } = await restoreBackup(taken.file, secret, folder);
      expect([code, said]).toEqual([0, expect.stringContaining('No faults found.')]);
      const there = await contentOf(database.ownerUrl);
      expect([...there.keys()]).toEqual([...all.keys()]);
      for (const [book, entries] of there) expect(entries).toEqual(all.get(book)?.slice(0, entries.length));
      const stored = new Map([...there.values()].flat().map((e) => [e.id, { seq: e.seq, leaf: e.leaf }]));
      for (const { id, seq, leaf } of before) expect(stored.get(id)).toEqual({ seq, leaf });
      await database.drop();
    }
  });

  it('are, where nobody records, the whole of it: every table, the rows that were made again too', async () => {
    const { database } = await restoreBackup(quiet.file, secret, folder);
    const [was, is] = [await tableHashes(t.database), await tableHashes(database)];
    await database.drop();
    // One lot too many on watch changes no answer, and the verification above compared them; the others hold for minutes or are asked for anew.
    const mayDiffer = ['on_watch', 'clear_lot', 'signature_token', 'enrolment_code', '_prisma_migrations'];
    expect([...was.keys()].filter((name) => was.get(name) !== is.get(name) && !mayDiffer.includes(name))).toEqual([]);
    expect(is.size).toBe(was.size);
  });
});

/** A delivery, a reading with a note, and now and then the correction of the delivery. */
function some(b: Bakehouse, make: string, random: () => number): SentEnvelope[] {
  const lot = b.newId();
  const delivery = (figure: string) => ({
    supplier: null,
    noteNumber: `N ${Math.floor(random() * 1000)}`,
    photo: null,
    unattended: false,
    lines: [b.line('flour', lot, { quantity: { figure, unit: 'kg' } })],
  });
  const received = b.house.entry({ kind: 'delivery-received', payload: delivery('25') });
  const reading = b.house.entry({
    kind: 'reading-taken',
    words: { note: `as it was, “${Math.floor(random() * 1000)}” \\ ü` },
    payload: { ...b.reading('dough', 'make', make, '26'), value: celsius(String(20 + Math.floor(random() * 12))) },
  });
  const corrected = b.house.entry({
    kind: 'delivery-received',
    corrects: received.id,
    after: [received.id],
    words: { reason: 'kilograms typed for pounds' },
    payload: delivery('11.34'),
  });
  return random() < 0.4 ? [received, reading, corrected] : [received, reading];
}

interface StoredEntry extends Acknowledged {
  readonly hash: string;
  readonly words: string | null;
}

/** The entries of each book in their order, with a hash of their bytes and their words. */
async function contentOf(ownerUrl: string): Promise<ReadonlyMap<string, readonly StoredEntry[]>> {
  return connected(ownerUrl, async (owner) => {
    const { rows } = await owner.query<StoredEntry & { book: string }>(
      `SELECT e.book, e.id, e.seq, encode(e.leaf, 'hex') AS leaf, md5(b.bytes) AS hash,
         (SELECT string_agg(w.key || ' ' || w.salt || ' ' || w.text, E'\\n' ORDER BY w.key) FROM entry_word w WHERE w.entry = e.id) AS words
       FROM entry e JOIN entry_body b USING (organisation, book, seq) ORDER BY e.book, e.seq`,
    );
    const books = new Map<string, StoredEntry[]>();
    for (const { book, ...entry } of rows) books.set(book, [...(books.get(book) ?? []), entry]);
    return books;
  });
}
