import { rm } from 'node:fs/promises';

/** The last project to end stops the server. */
export default async function teardown() {
  const run = globalThis.bakehouseTestRun;
  run.users -= 1;
  if (run.users > 0) return;
  const { server, base } = await run.started;
  await server.stop();
  await rm(base, { recursive: true, force: true });
  delete globalThis.bakehouseTestRun;
}
