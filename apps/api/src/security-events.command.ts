import { parseArgs } from 'node:util';
import type { SecurityEvents } from '@bakehouse/contracts';
import { instant } from '@bakehouse/kernel';
import type { Client } from 'pg';
import type { CommandContext } from './command.js';
import { securityEventsSince } from './modules/people/index.js';
import { inHouse, connected, type ServiceDatabase } from './platform/database/index.js';
import { everyOrganisation, type OrganisationRef } from './platform/ledger/every-book.query.js';

const usage =
  'Say since when: npm run --silent records -- security-events --since 2026-11-27T00:00:00Z. ' +
  'Ask again with an instant some minutes before the last line: what is told twice has the same id.';

/** Tells what happened at the doors since an instant, one JSON object a line, for programs that collect logs. */
export async function securityEventsCommand(
  database: Pick<ServiceDatabase, 'serviceUrl'>,
  { words, say }: Pick<CommandContext, 'words' | 'say'>,
): Promise<number> {
  const since = asked(words);
  if (since === undefined) {
    say(usage);
    return 2;
  }
  return connected(database.serviceUrl, async (client) => {
    for (const organisation of await everyOrganisation(client)) await tellAll(client, organisation, since, say);
    return 0;
  });
}

/** Page by page: a house of ten years has more than fit into memory. */
async function tellAll(client: Client, { id, name }: OrganisationRef, since: string, say: (line: string) => void): Promise<void> {
  let last: string | null = null;
  do {
    const after = last;
    const events: SecurityEvents['events'] = await inHouse(client, id, () => securityEventsSince(client, id, since, after));
    for (const event of events) say(JSON.stringify({ house: { id, name }, ...event }));
    last = events.at(-1)?.id ?? null;
  } while (last !== null);
}

function asked(words: readonly string[]): string | undefined {
  try {
    const { values } = parseArgs({ args: words.slice(), options: { since: { type: 'string' } } });
    return instant.safeParse(values.since).data;
  } catch {
    return undefined;
  }
}
