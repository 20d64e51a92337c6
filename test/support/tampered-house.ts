import { createHash } from 'node:crypto';
import { Frontier, leafHash } from '@bakehouse/ledger';
import type { Client } from 'pg';
import sharp from 'sharp';
import request from 'supertest';
import { inputHashOf, sha256 } from '../../apps/api/src/platform/ledger/content.js';
import { contentOf } from '../../apps/api/src/platform/ledger/known.js';
import { noteClear } from '../../apps/api/src/platform/ledger/clear-lots.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { inHouse, connected } from '../../apps/api/src/platform/database/index.js';
import { withholdCommand } from '../../apps/api/src/withhold.command.js';
import { startTestApp } from './app.js';
import { at, Bakehouse } from './bakehouse.js';

export const sealKey = Buffer.alloc(32, 7).toString('base64');
const jpeg = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#c96' } })
  .jpeg()
  .toBuffer();

/** A small house in which everything stands that could be tampered with, sealed twice, and its service stopped. */
export async function soundHouse() {
  const t = await startTestApp({ clock: new SettableClock('2026-11-25T04:00:00Z'), env: { SEAL_KEY: sealKey } });
  const b = await Bakehouse.found(t);
  const old = await b.delivered('flour', at('00:30'));
  const lot = await b.delivered('flour', at('01:00'));
  const make = await b.begun('white', at('02:30'));
  await b.baker.record('weighed-in', { make, lines: [b.into('flour', '100', lot)] }, { at: at('02:35') });
  const early = (await b.baker.record('reading-taken', b.reading('dough', 'make', make, '25'), { at: at('02:50') })).id;
  const seal = async (): Promise<number> => Number((await b.baker.caller.get(`/sites/${b.site}/seal`).expect(200)).body.size);
  const firstSeal = await seal();
  const outside = (await b.baker.record('reading-taken', b.reading('dough', 'make', make, '40'), { at: at('03:20') })).id;
  const note = { words: { note: 'by hand' } };
  const noted = (await b.baker.record('reading-taken', b.reading('dough', 'make', make, '26'), { at: at('03:30'), ...note })).id;
  await b.baker.record('reading-taken', b.reading('dough', 'make', make, '25'), { at: at('03:31') });
  const secondSeal = await seal();
  const photo = createHash('sha256').update(jpeg).digest('hex');
  await request(t.server)
    .put(`/api/v1/sites/${b.site}/photos/${photo}`)
    .set('authorization', `Bearer ${b.baker.caller.token}`)
    .set('content-type', 'image/jpeg')
    .send(jpeg)
    .expect(204);
  await b.baker.record('reading-taken', b.reading('dough', 'make', make, '24'), { at: at('03:40') });
  await b.lead.record('hold-placed', { lot, deviation: null }, { at: at('03:50'), words: { because: 'a smell' } });
  await t.app.close();
  const { organisation } = b.house;
  await connected(t.database.ownerUrl, (owner) =>
    inHouse(owner, organisation, () => noteClear(owner, organisation, [old], new Date('2026-12-25T04:00:00Z'))),
  );
  const words = ['--kind', 'reading-taken', '--before', '2027-01-01', '--reason', 'old', '--yes', '--by', 'Lee Dehl'];
  const withhold = (database: { readonly ownerUrl: string }): Promise<number> =>
    withholdCommand(database, { words, say: () => undefined }, new SettableClock('2033-01-10T12:00:00Z'));
  const { site } = b;
  return { database: t.database, organisation, site, old, lot, make, early, outside, noted, firstSeal, secondSeal, photo, withhold };
}
export type SoundHouse = Awaited<ReturnType<typeof soundHouse>>;

/** As somebody with the owner's keys and much time would: one figure is another, and leaf, hash, head and the roots of seals are made to fit. */
export async function rewrite(owner: Client, book: string, entry: string, from: string, to: string): Promise<void> {
  const found = await owner.query<{ seq: number; bytes: Buffer }>(
    'SELECT e.seq, b.bytes FROM entry e JOIN entry_body b USING (organisation, book, seq) WHERE e.book = $1 AND e.id = $2',
    [book, entry],
  );
  const [row] = found.rows;
  const text = row?.bytes.toString('utf8') ?? '';
  if (!row || !text.includes(from)) throw new Error(`${entry} does not say ${from}`);
  const bytes = Buffer.from(text.replace(from, to));
  await owner.query('UPDATE entry_body SET bytes = $3 WHERE book = $1 AND seq = $2', [book, row.seq, bytes]);
  await owner.query('UPDATE entry SET leaf = $3, input_hash = $4 WHERE book = $1 AND seq = $2', [
    book,
    row.seq,
    Buffer.from(leafHash(bytes, sha256)),
    inputHashOf(contentOf(bytes).input),
  ]);
  await headFrom(owner, book);
  const seals = await owner.query<{ size: number }>('SELECT size FROM seal WHERE book = $1 AND size > $2', [book, row.seq]);
  for (const { size } of seals.rows)
    await owner.query('UPDATE seal SET root = $3 WHERE book = $1 AND size = $2', [
      book,
      size,
      Buffer.from((await treeOf(owner, book, size)).root()),
    ]);
}

/** The end of the book from this number on is cut off, with all that stands beside it, and the head set to what is left. */
export async function cut(owner: Client, book: string, from: number): Promise<void> {
  const gone = 'SELECT id FROM entry WHERE book = $1 AND seq >= $2';
  for (const table of ['sending', 'entry_word']) await owner.query(`DELETE FROM ${table} WHERE entry IN (${gone})`, [book, from]);
  for (const table of ['entry_body', 'entry']) await owner.query(`DELETE FROM ${table} WHERE book = $1 AND seq >= $2`, [book, from]);
  await headFrom(owner, book);
}

async function treeOf(owner: Client, book: string, size: number): Promise<Frontier> {
  const { rows } = await owner.query<{ leaf: Buffer }>('SELECT leaf FROM entry WHERE book = $1 AND seq < $2 ORDER BY seq', [book, size]);
  const tree = Frontier.empty(sha256);
  for (const { leaf } of rows) tree.append(leaf);
  return tree;
}

async function headFrom(owner: Client, book: string): Promise<void> {
  const tree = await treeOf(owner, book, Number.MAX_SAFE_INTEGER);
  await owner.query(
    'UPDATE book SET size = $2, frontier = $3, last_at = (SELECT max(recorded_at) FROM entry WHERE book = $1) WHERE id = $1',
    [book, tree.size, tree.toHex()],
  );
}
