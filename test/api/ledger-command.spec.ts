import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { entry } from '../support/entries.js';
import { startLedger, type TestLedger } from '../support/ledger.js';
import { roomReading } from '../support/payloads.js';

describe('what the ledger command says', () => {
  let ledger: TestLedger;
  let ownerUrl: string;
  let ids: string[];

  beforeAll(async () => {
    ledger = await startLedger();
    ownerUrl = `postgresql://${ledger.owner.user}:${ledger.owner.password}@${ledger.owner.host}:${ledger.owner.port}/${ledger.owner.database}`;
    const entries = Array.from({ length: 5 }, (_, i) => entry('reading-taken', roomReading(ledger.site.id, String(20 + i))));
    ids = entries.map((e) => e.id);
    expect((await ledger.writer.record(ledger.site, ledger.asker(), entries)).map((r) => r.as)).toEqual(ids.map(() => 'recorded'));
  });
  afterAll(() => ledger.stop());

  const run = async (...words: string[]): Promise<{ code: number; said: string }> => {
    const said: string[] = [];
    return {
      code: await ledgerCommand(
        { ownerUrl },
        { words, say: (line) => said.push(line), config: { SEAL_KEY: undefined, DATA_DIR: '/nowhere' } },
      ),
      said: said.join('\n'),
    };
  };

  it('of an untouched ledger: each book, each pass, how many entries, the root', async () => {
    const { code, said } = await run('verify');
    expect(code).toBe(0);
    expect(said).toMatch(
      /^Test bakehouse, the organisation’s own book: 0 entries\n {2}pass 1 of 3, bytes, order and tree +no faults, [^]*Test bakehouse, site: 5 entries\n/,
    );
    expect(said.match(/ {2}pass \d of 3.*no faults/g)).toHaveLength(6);
    expect(said).toMatch(/ {2}root [0-9a-f]{64}\n[^]*\nNo faults found\.$/);
  });

  it('of one byte that was changed behind its back: which entry, and code 2', async () => {
    const flip = 'UPDATE entry_body SET bytes = set_byte(bytes, 60, get_byte(bytes, 60) # 1) WHERE seq = 3';
    const behind = async (): Promise<void> => {
      for (const sql of ['ALTER TABLE entry_body DISABLE TRIGGER USER', flip, 'ALTER TABLE entry_body ENABLE TRIGGER USER'])
        await ledger.owner.query(sql);
    };
    await behind();
    const { code, said } = await run('verify');
    expect(code).toBe(2);
    expect(said).toContain(`    edited  entry ${ids[3]}, number 3: its bytes do not give its leaf`);
    expect(said).toMatch(/\d faults? found: evidence was changed\.$/);
    await behind();
    expect((await run()).code).toBe(0);
  });

  it('of a row that the ledger does not give: which entry it is told to be from; rebuild puts it right', async () => {
    await ledger.owner.query("UPDATE reading SET figure = '99' WHERE entry = $1", [ids[2]]);
    const { code, said } = await run('verify');
    expect([code, said]).toEqual([1, expect.stringContaining(`    projection-differs  entry ${ids[2]}: reading ${ids[2]} is changed`)]);
    const again = await run('rebuild');
    expect([again.code, again.said]).toEqual([
      0,
      expect.stringMatching(/Test bakehouse, site: 5 entries: projections rebuilt from 5 entries, /),
    ]);
    expect((await run('verify')).code).toBe(0);
  });

  it('of rows that were put into another book, or a book that is not there; rebuild puts them right', async () => {
    const { organisation, id } = ledger.site;
    const { rows } = await ledger.owner.query<{ id: string }>('SELECT id FROM book WHERE organisation = $1 AND id <> $2', [
      organisation,
      id,
    ]);
    await ledger.owner.query('UPDATE reading SET book = $2 WHERE entry = $1', [ids[1], rows[0]?.id]);
    await ledger.owner.query('UPDATE reading SET book = gen_random_uuid() WHERE entry = $1', [ids[4]]);
    expect((await run('verify')).code).toBe(2);
    expect((await run('rebuild')).code).toBe(0);
    expect((await run('verify')).code).toBe(0);
  });

  it('of an unknown word: the commands there are, and code 3', async () => {
    expect(await run('polish')).toEqual({ code: 3, said: 'Name a command: verify, rebuild.' });
  });
});
