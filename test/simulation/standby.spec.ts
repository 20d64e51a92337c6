import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { systemClock } from '../../apps/api/src/platform/clock/index.js';
import { connected, type EmbeddedPostgres } from '../../apps/api/src/platform/database/index.js';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { startTestApp, type TestApp } from '../support/app.js';
import type { TestDatabase } from '../support/database.js';
import { roomReading } from '../support/payloads.js';
import { House, signOn, type Caller } from '../support/people.js';
import { size } from '../support/size.js';
import { Archived } from '../support/two-servers.js';

const writers = size(4, 16);
const before = size(40, 600);

/** What an operator sets up on a server, by PostgreSQL's own means; DEVELOPERS.md has the settings. */
describe('a server with an archive and a standby that each commit waits for', () => {
  let servers: Archived;
  let standby: EmbeddedPostgres;
  let t: TestApp;
  let house: House;
  const acknowledged = new Set<string>();
  let archived: ReadonlySet<string>;
  const bakers: Caller[] = [];

  /** Writes until so many were acknowledged, or until nothing answers any more. */
  async function write(baker: Caller, many: number): Promise<void> {
    for (let n = 0; n < many; n += 1) {
      const one = house.entry({ kind: 'reading-taken', payload: roomReading(house.site, String(18 + (n % 5))) });
      const { status, body } = await baker.post(`/sites/${house.site}/entries`, [one]);
      if (status !== 200 || body[0]?.as !== 'recorded') return;
      acknowledged.add(one.id);
    }
  }
  const lost = async ({ ownerUrl }: TestDatabase, of: ReadonlySet<string>): Promise<string[]> => {
    const { rows } = await connected(ownerUrl, (owner) => owner.query<{ id: string }>('SELECT id FROM entry'));
    const there = new Set(rows.map(({ id }) => id));
    return [...of].filter((id) => !there.has(id));
  };
  const verify = async (database: TestDatabase): Promise<[number, string]> => {
    const said: string[] = [];
    const config = { SEAL_KEY: undefined, DATA_DIR: '/nowhere' };
    return [await ledgerCommand(database, { words: ['verify'], say: (line) => said.push(line), config }), said.at(-1) ?? ''];
  };

  beforeAll(async () => {
    servers = await Archived.start();
    standby = await servers.standby();
    t = await startTestApp({ clock: systemClock, database: servers.databaseOf(servers.primary) });
    house = await House.found(t);
    for (let w = 0; w < writers; w += 1) bakers.push(await house.signedOn(`Baker ${w}`, ['baker']));
    await Promise.all(bakers.map((baker) => write(baker, before / writers)));
    archived = new Set(acknowledged);
    await servers.archiveNow();
    const writing = Promise.all(bakers.map((baker) => write(baker, Number.MAX_SAFE_INTEGER)));
    while (acknowledged.size < archived.size + before) await new Promise(setImmediate);
    process.kill(servers.primary.pid, 'SIGKILL');
    await writing;
  }, 120_000);
  afterAll(async () => {
    await t.close();
    await servers.stop();
  });

  it('loses nothing that was acknowledged when the primary is killed and the standby takes its place', async () => {
    await connected(standby.url('postgres'), (owner) => owner.query('SELECT pg_promote(true)'));
    const database = servers.databaseOf(standby);
    expect(acknowledged.size).toBeGreaterThanOrEqual(2 * before);
    expect(await lost(database, acknowledged)).toEqual([]);
    expect(await verify(database)).toEqual([0, 'No faults found.']);
    const other = await startTestApp({ clock: systemClock, database }); // the service, started again with the other address
    try {
      const baker = await signOn(other, house.organisation, bakers[0]?.person ?? '', bakers[0]?.pin ?? '');
      const ofBefore = acknowledged.size;
      await write(baker, 3);
      expect(acknowledged.size).toBe(ofBefore + 3);
    } finally {
      await other.app.close();
    }
  });

  it('has everything up to the end of the archive in a copy that plays it', async () => {
    const database = servers.databaseOf(await servers.fromArchive());
    expect(archived.size).toBe(before);
    expect(await lost(database, archived)).toEqual([]);
    expect(await verify(database)).toEqual([0, 'No faults found.']);
  });
});
