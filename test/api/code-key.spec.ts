import { lotCodeKey } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import pg from 'pg';
import { createTestDatabase, type TestDatabase } from '../support/database.js';

describe('a code without capitals, spaces and dashes', () => {
  let database: TestDatabase;
  let owner: pg.Client;
  beforeAll(async () => {
    database = await createTestDatabase();
    owner = new pg.Client({ connectionString: database.ownerUrl });
    await owner.connect();
  });
  afterAll(async () => {
    await owner.end();
    await database.drop();
  });

  it('is the same in the database as in the records', async () => {
    const letters = fc.oneof(
      fc.constantFrom(
        ...'aZ09-_%\\./ ÄßİéÉ‐‑‒–—―−﹘﹣－\t\n\r\f\v\u00a0\u1680\u2000\u2007\u200a\u200b\u2028\u2029\u202f\u205f\u3000\ufeff',
      ),
      fc.string({ minLength: 1, maxLength: 1, unit: 'grapheme' }).filter((one) => !one.includes('\0')),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(fc.string({ maxLength: 20, unit: letters }), { minLength: 1, maxLength: 50 }), async (codes) => {
        const { rows } = await owner.query<{ key: string }>(
          'SELECT lot_code_key(code) AS key FROM unnest($1::text[]) WITH ORDINALITY u(code, n) ORDER BY n',
          [codes],
        );
        expect(rows.map((r) => r.key)).toEqual(codes.map(lotCodeKey));
      }),
    );
  });
});
