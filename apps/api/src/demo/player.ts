import type { EntryResult } from '@bakehouse/contracts';
import type { SentEnvelope } from '@bakehouse/kernel';
import { kindOf } from '@bakehouse/records';
import type { SettableClock } from '../platform/clock/index.js';
import type { PersonKey } from './data/people.js';
import type { StoryEntry, Where } from './story/story.js';

/** The door as somebody stands at it: in this process, or over HTTP. */
export interface Door {
  sign(by: PersonKey, entry: SentEnvelope): Promise<string>;
  send(by: PersonKey, where: Where, entries: readonly SentEnvelope[]): Promise<readonly Pick<EntryResult, 'as'>[]>;
}

const maxTogether = 200;
/** A tablet sends what was typed within so many minutes together. */
const togetherMs = 12 * 60_000;

/**
 * Sends a story's records as they happened, the clock moved along: what one person typed at one place within a few minutes in one request,
 * what is signed by itself. Answers with how many were recorded.
 * @throws where the door does not record what the story says
 */
export async function play(
  story: readonly StoryEntry[],
  door: Door,
  clock: SettableClock,
  onProgress: (recorded: number, atMs: number) => void | Promise<void> = () => undefined,
): Promise<number> {
  let recorded = 0;
  for (const group of together(story)) {
    const [first] = group;
    const last = group.at(-1);
    if (!first || !last) continue;
    clock.set(new Date(Math.max(last.typedMs, clock.now().getTime())));
    const entries: SentEnvelope[] = isSigned(first)
      ? [{ ...first.entry, send: { signature: await door.sign(first.by, first.entry) } }]
      : group.map((d) => d.entry);
    expectAll(await door.send(first.by, first.where, entries), group, 'recorded');
    const again = group.filter((d) => d.again);
    if (again.length > 0)
      expectAll(
        await door.send(
          first.by,
          first.where,
          again.map((d) => ({ ...d.entry, send: { attempt: 2 } })),
        ),
        again,
        'already-recorded',
      );
    recorded += group.length;
    await onProgress(recorded, last.typedMs);
  }
  return recorded;
}

const isSigned = (d: StoryEntry): boolean => (kindOf(d.entry)?.signed ?? null) !== null;

function together(story: readonly StoryEntry[]): StoryEntry[][] {
  const groups: StoryEntry[][] = [];
  for (const d of story) {
    const group = groups.at(-1);
    const [first] = group ?? [];
    const joins =
      group &&
      first &&
      group.length < maxTogether &&
      first.by === d.by &&
      first.where === d.where &&
      !isSigned(first) &&
      !isSigned(d) &&
      d.typedMs - first.typedMs < togetherMs;
    if (joins) group.push(d);
    else groups.push([d]);
  }
  return groups;
}

function expectAll(results: readonly Pick<EntryResult, 'as'>[], group: readonly StoryEntry[], as: EntryResult['as']): void {
  for (const [i, d] of group.entries()) {
    const result = results[i];
    if (result?.as !== as)
      throw new Error(`The demo's ${d.entry.kind} was not ${as}: ${JSON.stringify(result)}; it was ${JSON.stringify(d.entry)}`);
  }
}
