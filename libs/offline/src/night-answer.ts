import * as z from 'zod';

/** What the night route answers, as far as a device keeps it: all rows, or those that differ from the version that was held. */
export const nightAnswer = z.object({
  site: z.object({ id: z.string(), name: z.string(), zone: z.string(), dayStarts: z.string() }),
  day: z.string(),
  asOf: z.string(),
  sizes: z.array(z.object({ book: z.string(), name: z.string(), size: z.int() })),
  version: z.string(),
  since: z.string().nullable(),
  rows: z.record(z.string(), z.array(z.looseObject({ id: z.string() }))),
  gone: z.record(z.string(), z.array(z.string())),
  leftOut: z.int().optional(),
});
export type NightAnswer = z.infer<typeof nightAnswer>;

const whole = nightAnswer.omit({ since: true, gone: true });
/** A night with all its rows, as a device keeps it. */
export const keptNight = whole.extend({
  organisation: z.string(),
  clockErrorMs: z.int().nullable(),
  tag: z.string().nullable().default(null),
  version: z.string().nullable().default(null),
});
export type KeptNight = z.infer<typeof keptNight>;
/** What a device says that it holds. */
export type NightHeld = Pick<KeptNight, 'tag' | 'version'>;

/** A night as it came, with its tag; or that the one of the tag in hand still holds, as of when. */
export type NightReply =
  { readonly changed: true; readonly value: NightAnswer; readonly tag: string | null } | { readonly changed: false; readonly asOf: string };

/** The whole night after an answer; undefined where the answer is not about what is held. */
export function withChanges(
  held: Pick<KeptNight, 'version' | 'rows'> | null,
  { value, tag }: Extract<NightReply, { changed: true }>,
): (z.infer<typeof whole> & Pick<KeptNight, 'tag'>) | undefined {
  const { since, gone, ...night } = value;
  if (since === null) return { ...night, tag };
  if (held?.version !== since) return undefined;
  const names = new Set([...Object.keys(held.rows), ...Object.keys(night.rows)]);
  return {
    ...night,
    rows: Object.fromEntries([...names].map((name) => [name, onTop(held.rows[name], night.rows[name], gone[name])])),
    tag,
  };
}

type Rows = NightAnswer['rows'][string];

function onTop(held: Rows = [], changed: Rows = [], gone: readonly string[] = []): Rows {
  if (changed.length + gone.length === 0) return held;
  const left = new Map(held.map((row) => [row.id, row]));
  for (const id of gone) left.delete(id);
  for (const row of changed) left.set(row.id, row);
  return [...left.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
}
