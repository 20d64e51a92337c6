import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { canonicalBytes, Frontier, leafHash } from '@bakehouse/ledger';
import { besideColumns, besideOf } from '../../apps/api/src/platform/ledger/beside.js';
import { inputHashOf, sha256, type Content } from '../../apps/api/src/platform/ledger/content.js';
import { contentOf } from '../../apps/api/src/platform/ledger/known.js';
import { inHouse } from '../../apps/api/src/platform/database/index.js';
import { rebuild } from '../../apps/api/src/platform/ledger/rebuild.js';
import { entry, newId, rawEntry } from '../support/entries.js';
import { as, expectSound, startLedger, type TestLedger } from '../support/ledger.js';

const golden = path.resolve(import.meta.dirname, '../reference/golden/entries/cleaned-down.v1.json');
const kept: unknown = JSON.parse(readFileSync(golden, 'utf8'));

/** A clean-down as version 1 stored it, moved into this book. */
function versionOne(ledger: TestLedger, seq: number): Content {
  const bytes = typeof kept === 'object' && kept !== null && 'bytes' in kept ? String(kept.bytes) : '';
  const { stamp, input, ...content } = contentOf(Buffer.from(bytes, 'utf8'));
  const { organisation, site } = ledger;
  return { ...content, input: { ...input, id: newId(), words: {} }, stamp: { ...stamp, seq, organisation, book: site.id } };
}

/** Puts entries there as a program of that time left them: bytes, columns and tree, and no rows of this program. */
async function insertAsStored(ledger: TestLedger, contents: readonly Content[]): Promise<void> {
  const { organisation, site, owner } = ledger;
  const tree = Frontier.empty(sha256);
  for (const content of contents) {
    const bytes = canonicalBytes(content);
    const leaf = leafHash(bytes, sha256);
    tree.append(leaf);
    const { input, stamp } = content;
    const beside = besideOf(content);
    await owner.query(
      `INSERT INTO entry (organisation, book, seq, id, root, kind, leaf, input_hash, recorded_at, ${besideColumns.join(', ')})
       VALUES ($1, $2, $3, $4, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)`,
      [
        ...[organisation, site.id, stamp.seq, input['id'], input['kind'], Buffer.from(leaf), inputHashOf(input), stamp.recordedAt],
        ...besideColumns.map((column) => beside?.[column]),
      ],
    );
    await owner.query('INSERT INTO entry_body (organisation, book, seq, bytes) VALUES ($1, $2, $3, $4)', [
      ...[organisation, site.id, stamp.seq, Buffer.from(bytes)],
    ]);
  }
  const lastAt = contents.at(-1)?.stamp.recordedAt;
  await owner.query('UPDATE book SET size = $2, frontier = $3, last_at = $4, projection = 1 WHERE id = $1', [
    site.id,
    tree.size,
    tree.toHex(),
    lastAt,
  ]);
}

describe('a ledger of an older version of a kind', () => {
  let ledger: TestLedger;
  beforeAll(async () => {
    ledger = await startLedger();
  });
  afterAll(() => ledger.stop());

  const rows = async () =>
    (
      await ledger.owner.query('SELECT type, chemical, contact_seconds, name FROM clean_down WHERE organisation = $1 ORDER BY seq', [
        ledger.organisation,
      ])
    ).rows;

  it('is made again from the bytes as they were stored, and verifies clean', async () => {
    await insertAsStored(
      ledger,
      [0, 1, 2].map((seq) => versionOne(ledger, seq)),
    );
    await inHouse(ledger.owner, ledger.organisation, () => rebuild(ledger.owner, ledger.site));
    expect(await rows()).toEqual(Array(3).fill({ type: 'wet', chemical: 'soap', contact_seconds: '300', name: null }));
    await expectSound(ledger);
  });

  it('takes what a tablet with an older page sends, corrections of old records with it, and answers again as it did', async () => {
    const [bench] = [newId()];
    const place = entry('place-in-use', { name: 'Bench', type: 'station', within: null }, { id: bench });
    const old = { place: bench, type: 'wet', chemical: 'sanitiser', dilution: '1:50', contactMinutes: 2 };
    const [sent, wrong, both] = [old, { ...old, contactMinutes: 'two' }, { ...old, contactSeconds: 120 }].map((payload) =>
      rawEntry('cleaned-down', payload, { version: 1 }),
    );
    const first = await ledger.writer.record(ledger.site, ledger.asker(), [place, sent, wrong, both]);
    expect(as(first)).toEqual(['recorded', 'recorded', 'malformed', 'malformed']);
    expect(first[2]).toMatchObject({ field: 'payload.contactMinutes' });
    expect(first[3]).toMatchObject({ field: 'payload.contactSeconds' });
    const again = await ledger.writer.record(ledger.site, ledger.asker(), [sent]);
    expect(again).toMatchObject([{ as: 'already-recorded', outcome: { name: 'Bench' } }]);
    const { rows: stored } = await ledger.owner.query<{ id: string }>('SELECT id FROM entry WHERE book = $1 AND seq = 0', [ledger.site.id]);
    const corrected = { place: bench, type: 'dry', chemical: null, dilution: null, contactSeconds: 30 } as const;
    const correction = entry('cleaned-down', corrected, { corrects: stored[0]?.id ?? '', words: { reason: 'it was dry' } });
    const olds = await ledger.writer.record(ledger.site, ledger.asker(), [correction]);
    expect(as(olds)).toEqual(['recorded']);
    expect(await rows()).toEqual([
      ...Array(2).fill({ type: 'wet', chemical: 'soap', contact_seconds: '300', name: null }),
      { type: 'wet', chemical: 'sanitiser', contact_seconds: '120', name: 'Bench' },
      { type: 'dry', chemical: null, contact_seconds: '30', name: 'Bench' },
    ]);
    await expectSound(ledger);
  });

  it('answers what was sent under an older outcome with the newest one', async () => {
    const content = contentOf(
      (await ledger.owner.query<{ bytes: Buffer }>('SELECT bytes FROM entry_body WHERE book = $1 AND seq = 1', [ledger.site.id])).rows[0]
        ?.bytes ?? Buffer.of(),
    );
    expect(content).toMatchObject({ outcome: {}, outcomeVersion: 1 });
    const [result] = await ledger.writer.record(ledger.site, ledger.asker(), [{ ...content.input, words: {} }]);
    expect(result).toMatchObject({ as: 'already-recorded', outcome: { name: null } });
  });
});
