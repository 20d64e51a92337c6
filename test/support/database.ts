import { randomUUID } from 'node:crypto';
import { connected, createDatabase, serviceUrlFrom } from '../../apps/api/src/platform/database/index.js';

export interface TestDatabase {
  readonly ownerUrl: string;
  /** As the application logs in: held by row-level security. */
  readonly serviceUrl: string;
  drop(): Promise<void>;
}

/** A database of its own, migrated and empty: a copy of the run's template. */
export function createTestDatabase(): Promise<TestDatabase> {
  return copyOf('bakehouse_template');
}

/** A database without anything in it, for tests of the migrations themselves. */
export function createEmptyDatabase(): Promise<TestDatabase> {
  return copyOf('template1');
}

/** A copy of a database of the run's server, to which nobody may be connected meanwhile. */
export async function copyOf(template: string): Promise<TestDatabase> {
  const server = process.env['BAKEHOUSE_TEST_SERVER'];
  if (server === undefined)
    throw new Error('The test server was not started: this test must stand in a project that has the global set-up.');
  const name = `test_${randomUUID().replaceAll('-', '')}`;
  await createDatabase(server, name, template);
  const ownerUrl = Object.assign(new URL(server), { pathname: `/${name}` }).toString();
  return {
    ownerUrl,
    serviceUrl: serviceUrlFrom(ownerUrl),
    drop: () =>
      connected(server, async (admin) => {
        await admin.query(`DROP DATABASE ${admin.escapeIdentifier(name)} WITH (FORCE)`);
      }),
  };
}
