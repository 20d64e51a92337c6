// What the door is measured against: the same Fastify, bare pg, the same rows, one commit a request. No checks, no canonical form, no tree.
import { createHash, randomUUID } from 'node:crypto';
import Fastify from 'fastify';
import pg from 'pg';

const pool = new pg.Pool({ connectionString: process.env.BARE_URL, max: 12 });
const app = Fastify({ bodyLimit: 2 * 1024 * 1024 });
const reading = `"organisation", "book", "id", "entry", "seq", "subject_type", "subject", "measured", "parameter", "figure", "unit", "milli", "verdict", "half_width_milli", "rule", "at", "done_by", "corrected"`;
const text = `WITH h AS (UPDATE book SET size = size + $3, last_at = now() WHERE organisation = $1 AND id = $2 RETURNING size - $3 AS seq),
  n AS (SELECT h.seq + u.i - 1 AS seq, u.* FROM h, unnest($4::uuid[], $5::bytea[], $6::bytea[], $7::text[], $8::bigint[], $9::timestamptz[]) WITH ORDINALITY AS u(id, leaf, bytes, figure, milli, at, i)),
  e AS (INSERT INTO entry (organisation, book, seq, id, root, kind, leaf, input_hash, recorded_at, person, precision) SELECT $1, $2, seq, id, id, 'reading-taken', leaf, leaf, now(), $1, 'exact' FROM n),
  b AS (INSERT INTO entry_body (organisation, book, seq, bytes) SELECT $1, $2, seq, bytes FROM n),
  s AS (INSERT INTO sending (organisation, entry, received_at) SELECT $1, id, now() FROM n)
  INSERT INTO reading (${reading}) SELECT $1, $2, id, id, seq, 'site', $2, 'air', 'room', figure, 'degC', milli, 'no-limit', 0, 1, at, $1, false FROM n`;

app.post('/api/v1/sites/:site/entries', async (request) => {
  const entries = request.body;
  const bytes = entries.map((e) => Buffer.from(JSON.stringify(e)));
  await pool.query({
    name: 'bare',
    text,
    values: [
      process.env.BARE_ORGANISATION,
      request.params.site,
      entries.length,
      entries.map((e) => e.id),
      bytes.map((b) => createHash('sha256').update(b).digest()),
      bytes,
      entries.map((e) => e.payload.value.figure),
      entries.map((e) => Math.round(Number(e.payload.value.figure) * 1000)),
      entries.map((e) => e.occurredAt.at),
    ],
  });
  return entries.map((e) => ({
    as: 'recorded',
    id: e.id,
    receipt: { book: request.params.site, seq: 0, leaf: randomUUID(), recordedAt: e.occurredAt.at },
  }));
});

await app.listen({ port: Number(process.env.PORT), host: '127.0.0.1' });
process.stdout.write('ready\n');
