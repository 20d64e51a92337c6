import { connected } from '../../apps/api/src/platform/database/index.js';
import type { TestApp } from './app.js';

const ids = /[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;

/** Every id in a text, each once. */
export const idsIn = (text: string): string[] => [...new Set(text.toLowerCase().match(ids))];

/** The rows of one organisation in every table, as text: what there is of it, and whether it is as it was. */
export async function rowsOf(t: TestApp, organisation: string): Promise<ReadonlyMap<string, string>> {
  return connected(t.database.ownerUrl, async (owner) => {
    const { rows: tables } = await owner.query<{ name: string }>(
      "SELECT table_name AS name FROM information_schema.columns WHERE table_schema = 'public' AND column_name = 'organisation' ORDER BY 1",
    );
    const found = new Map<string, string>();
    for (const { name } of tables) {
      const { rows } = await owner.query<{ text: string | null }>(
        `SELECT string_agg(t::text, E'\\n' ORDER BY t::text) AS text FROM "${name}" t WHERE organisation = $1`,
        [organisation],
      );
      found.set(name, rows[0]?.text ?? '');
    }
    return found;
  });
}
