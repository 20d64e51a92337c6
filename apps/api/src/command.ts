import type { Config } from './platform/config/index.js';

/** What every command is given. */
export interface CommandContext {
  readonly config: Config;
  /** Words after the command's name. */
  readonly words: readonly string[];
  readonly say: (line: string) => void;
}

/** The exit code of a verification or a rebuild that could not be done: none of those that say how a verification ended. */
export const notDone = 3;
