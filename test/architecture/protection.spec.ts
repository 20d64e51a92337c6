import { readFile, writeFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { connected, protectionFile, protectionOf } from '../../apps/api/src/platform/database/index.js';
import { createTestDatabase, type TestDatabase } from '../support/database.js';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

describe('the locks of the database', () => {
  it('are written down as the migrations make them (GENERATE=write writes them)', async () => {
    const made = `${(await connected(database.ownerUrl, protectionOf)).join('\n')}\n`;
    if (process.env['GENERATE'] === 'write') await writeFile(protectionFile, made);
    expect(await readFile(protectionFile, 'utf8')).toBe(made);
  });
});
