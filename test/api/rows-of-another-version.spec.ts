import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { projectionVersion } from '@bakehouse/records';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { Service } from '../../apps/api/src/service.js';
import { entry } from '../support/entries.js';
import { as, startLedger, type TestLedger } from '../support/ledger.js';
import { roomReading } from '../support/payloads.js';

describe('rows that another version of the program made', () => {
  let ledger: TestLedger;
  beforeAll(async () => {
    ledger = await startLedger();
    const reading = entry('reading-taken', roomReading(ledger.site.id, '20'));
    expect(as(await ledger.writer.record(ledger.site, ledger.asker(), [reading]))).toEqual(['recorded']);
  });
  afterAll(() => ledger.stop());

  const madeBy = async () =>
    (await ledger.owner.query<{ projection: number }>('SELECT projection FROM book ORDER BY size')).rows.map((r) => r.projection);
  /** Starts the service and ends it; what it said on the way. */
  const start = async (): Promise<string[]> => {
    const said: string[] = [];
    const { serviceUrl: DATABASE_URL } = ledger;
    const config = readConfig({
      DATABASE_URL,
      SEED_DEMO: 'no',
      PORT: '0',
      SEAL_KEY: Buffer.alloc(32, 1).toString('base64'),
    });
    const service = new Service(config, randomUUID(), (line) => said.push(line));
    try {
      await service.start(() => undefined);
    } finally {
      await service.stop();
    }
    return said;
  };

  it('are not there where the door made them: a book knows its version from its first entry on', async () => {
    expect(await madeBy()).toEqual([0, projectionVersion]);
    expect(await start()).toContain('ready');
  });

  it('stop a start with the sentence that says what to do, until it was done', async () => {
    await ledger.owner.query('UPDATE book SET projection = $1 WHERE id = $2', [projectionVersion - 1, ledger.site.id]);
    const more = entry('reading-taken', roomReading(ledger.site.id, '21'));
    expect(as(await ledger.writer.record(ledger.site, ledger.asker(), [more]))).toEqual(['recorded']);
    expect(await madeBy()).toEqual([0, projectionVersion - 1]); // one more entry does not make the rest right
    await expect(start()).rejects.toThrow(
      "The records are whole, but the tables made from them (site) are another version's. Make them again, then start: npm run records -- rebuild",
    );
    expect(
      await ledgerCommand(ledger, { words: ['rebuild'], say: () => undefined, config: { SEAL_KEY: undefined, DATA_DIR: '/nowhere' } }),
    ).toBe(0);
    expect(await madeBy()).toEqual([projectionVersion, projectionVersion]);
    expect(await start()).toContain('ready');
  });
});
