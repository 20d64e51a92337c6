import type { CommandContext } from './command.js';
import type { Database } from './platform/database/index.js';

const usage = 'npm run records -- migrate takes no words.';

/** Says what was done when the database was opened as its owner: the one thing of the daily running that needs that login. */
export async function migrateCommand(
  { applied }: Pick<Database, 'applied'>,
  { words, say }: Pick<CommandContext, 'words' | 'say'>,
): Promise<number> {
  if (words.length > 0) {
    say(usage);
    return 2;
  }
  say(applied.length === 0 ? 'The database was up to date.' : `Applied: ${applied.join(', ')}.`);
  return 0;
}
