import { entryResults } from '@bakehouse/contracts';
import type { NewEntry } from '@bakehouse/records';
import { useTable } from './tablet-context';
import { troubleOf, type Trouble } from './trouble-of';
import { useProven } from './use-proven';
import { useWho } from './who';

export interface ManyDone {
  /** How many stand in the records now, those that stood there already too. */
  readonly recorded: number;
  /** What was not taken, by its place in what was given, with the reason. */
  readonly refused: readonly { readonly at: number; readonly says: string }[];
  /** What stopped it before its end. What was not sent is sent when it is done again. */
  readonly trouble: Trouble | undefined;
}
/** So many go to the service at once: progress is seen, and a lost reply costs little. */
const chunkSize = 50;

/** Many records of the house in the name of the person signed on, through the same door as one; each has its own answer. */
export function useMany(): (drafts: readonly NewEntry[], onProgress: (done: number) => void) => Promise<ManyDone> {
  const { tablet, person } = useTable();
  const { ask } = useWho();
  const prove = useProven();
  return async (drafts, onProgress) => {
    if (!(await prove())) return { recorded: 0, refused: [], trouble: { title: 'Nothing was added', detail: 'This needs your PIN.' } };
    let recorded = 0;
    let trouble: Trouble | undefined;
    const refused: { at: number; says: string }[] = [];
    for (let from = 0; from < drafts.length && !trouble; from += chunkSize) {
      const entries = await tablet.fixed(drafts.slice(from, from + chunkSize), person.id);
      const reply = await ask('post', '/organisation/entries', entryResults, { body: [], bodySerializer: () => JSON.stringify(entries) });
      if (reply.as !== 'ok') {
        trouble = troubleOf(reply, 'What was sent before stands. Do it again when the network is back: nothing is added twice.');
        break;
      }
      for (const [i, result] of reply.value.entries()) {
        if (result.as === 'recorded' || result.as === 'already-recorded') recorded += 1;
        else
          refused.push({
            at: from + i,
            says: result.as === 'refused' ? `${result.title}. ${result.detail}` : 'It waits for another record.',
          });
      }
      onProgress(Math.min(drafts.length, from + chunkSize));
    }
    await tablet.refresh();
    return { recorded, refused, trouble };
  };
}
