import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { verifyProtection } from '../../apps/api/src/platform/ledger/verify-protection.js';
import { copyOf } from '../support/database.js';
import { rewrite, sealKey, soundHouse, type SoundHouse } from '../support/tampered-house.js';
import { besideThem, entries, locks, place, sql, tamperingTable, workedOut, type Tamper } from '../support/tamperings.js';

let house: SoundHouse;
beforeAll(async () => {
  house = await soundHouse();
});
afterAll(() => house.database.drop());

interface Run {
  readonly code: number;
  readonly said: string;
}
interface Around {
  readonly before?: (database: { readonly ownerUrl: string }) => Promise<unknown>;
  readonly rebuilt?: boolean;
}
/** In a copy of the house: tampers as its owner, past every trigger, and verifies. */
async function verifiedAfter(tamper: Tamper, { before, rebuilt = false }: Around = {}): Promise<Run> {
  const copy = await copyOf(new URL(house.database.ownerUrl).pathname.slice(1));
  const command = async (word: string): Promise<Run> => {
    const said: string[] = [];
    const config = { SEAL_KEY: sealKey, DATA_DIR: '/nowhere' };
    const code = await ledgerCommand(copy, { words: [word], say: (line) => said.push(line), config });
    return { code, said: said.join('\n') };
  };
  try {
    await before?.(copy);
    await connected(copy.ownerUrl, async (owner) => {
      await owner.query("SET session_replication_role = 'replica'");
      await tamper(owner, house);
    });
    if (rebuilt) expect(await command('rebuild')).toMatchObject({ code: 0 });
    return await command('verify');
  } finally {
    await copy.drop();
  }
}

describe('a verification', () => {
  it('has a table of what it tells (GENERATE=write writes it)', async () => {
    const file = path.join(import.meta.dirname, 'tamperings.txt');
    if (process.env['GENERATE'] === 'write') await writeFile(file, tamperingTable());
    expect(await readFile(file, 'utf8')).toBe(tamperingTable());
  });

  it('finds nothing in a house that is sound, and nothing where old records were withheld on record', async () => {
    const sound = await verifiedAfter(async () => undefined);
    expect([sound.code, sound.said]).toEqual([0, expect.stringMatching(/\nNo faults found\.$/)]);
    const withheld = await verifiedAfter(async () => undefined, { before: house.withhold });
    expect([withheld.code, withheld.said]).toEqual([0, expect.stringMatching(/body-withheld[^]*\nNo faults found\.$/)]);
  });

  it.each([...entries, ...besideThem, ...workedOut])('names %s, with code %d', async (_what, code, found, tamper) => {
    const { code: ended, said } = await verifiedAfter(tamper);
    expect(said).toMatch(found);
    expect(ended).toBe(code);
  });

  it.each(workedOut)('names %s, and a rebuild puts it right', async (_what, _code, _found, tamper) => {
    const { code, said } = await verifiedAfter(tamper, { rebuilt: true });
    expect([code, said]).toEqual([0, expect.stringMatching(/\nNo faults found\.$/)]);
  });

  it('names a body that was removed beside those that were withheld', async () => {
    const { code, said } = await verifiedAfter(
      sql((h) => `DELETE FROM entry_body WHERE ${place(h, h.outside)}`),
      { before: house.withhold },
    );
    expect([code, said]).toEqual([
      2,
      expect.stringMatching(/body-removed: \d+ bodies of reading-taken are gone, and the record says that \d+ were withheld/),
    ]);
  });

  it('says what each type means and what to do, and how bad it is', async () => {
    const { said } = await verifiedAfter((owner, h) => rewrite(owner, h.site, h.early, '"25"', '"26"'));
    expect(said).toMatch(/\nseal-differs: Entries that were sealed are not those that are there now\. Change nothing, keep a copy/);
    expect(said).toMatch(/\d+ faults found: evidence was changed\.$/);
  });

  it.each(locks)('names %s', async (_what, found, tamper) => {
    const facts = await connected(house.database.ownerUrl, async (owner) => {
      await owner.query('BEGIN'); // roles belong to the whole server: nobody else sees this one before it is taken back
      await owner.query(tamper);
      const findings = await verifyProtection(owner);
      await owner.query('ROLLBACK');
      return findings;
    });
    expect(facts.every((f) => f.type === 'protection-differs')).toBe(true);
    expect(facts.map((f) => f.detail)).toContainEqual(expect.stringMatching(found));
  });

  it('ends with 1 where a lock is gone', async () => {
    const { code, said } = await verifiedAfter(sql(() => 'DROP TRIGGER entry_append_only ON entry'));
    expect([code, said]).toEqual([
      1,
      expect.stringMatching(/protection-differs: gone: entry: trigger[^]*to be put right; the entries stand\.$/),
    ]);
  });
});
