import * as z from 'zod';
import { envelope, type Entry, type Envelope, type Stamp } from './entry.js';
import { happened } from './happened.js';
import { malformed } from './malformed.js';
import type { Permission } from './permissions.js';
import { refuse, type Refused } from './refusal.js';
import { saysSomething } from './required-word.js';
import type { ChangeIn, NeedIn, Registry, StateIn } from './state.js';
import { inSteps, type Upcasters } from './upcast.js';

/** What a correction is judged against: the content that it replaces, as last decided. */
export interface Previous<P, O> {
  readonly payload: P;
  readonly outcome: O;
  readonly at: string;
  /** Who typed it. */
  readonly person: string;
}

/** What surrounds one decision: who and when, the permissions of the person who typed it, and for a correction what it replaces. */
export interface Context<P, O> {
  readonly stamp: Stamp;
  readonly previous: Previous<P, O> | undefined;
}

export type Decided<O> = { readonly ok: true; readonly outcome: O } | Refused;
export const decided = <O>(outcome: O): Decided<O> => ({ ok: true, outcome });

/** A book that a payload names, and where: a site, or any book of the organisation. */
export interface NamedBook {
  readonly id: string;
  readonly field: string;
  readonly type: 'site' | 'any';
}

export interface KindSpec<All extends Registry, N extends string, P extends z.ZodType, O extends z.ZodType> {
  /** For ever: a kind is never renamed; a changed payload is a new version with an upcaster. */
  readonly name: N;
  readonly version: number;
  /** Which book it is written in. */
  readonly book: 'site' | 'organisation' | 'either';
  /** A fact is never refused for being bad news; a decision is judged against the present and may be. */
  readonly type: 'fact' | 'decision';
  readonly offline: boolean;
  /** The meaning that stands beside the signature, or null for a kind that is not signed. */
  readonly signed: string | null;
  readonly permission: Permission;
  /** What a screen calls it: a short plain sentence. */
  readonly phrase: string;
  /** What a printed paper calls it. */
  readonly official: string;
  /** Keys of the free texts that it may carry beside `reason`. */
  readonly words?: readonly string[];
  readonly payload: P;
  readonly outcome: O;
  readonly examples: readonly [z.input<P>, ...z.input<P>[]];
  /** Keys only, so that the writer loads each collection once for a whole commit. */
  needs(payload: z.output<P>): readonly NeedIn<All>[];
  /** The books that it names. No row tells of books: the writer makes sure that they are this organisation's. */
  books?(payload: z.output<P>): readonly NamedBook[];
  /**
   * What only the needs before can name. Asked again until it names nothing new, so it may look no further than `state.knows`. Leave it out where it
   * is not needed: each round costs a round trip.
   */
  then?(payload: z.output<P>, state: StateIn<All>, of: { readonly root: string; readonly at: string }): readonly NeedIn<All>[];
  /** At record time only. Pure: no clock, no randomness, nothing but its arguments. */
  decide(entry: Entry<z.output<P>>, state: StateIn<All>, context: Context<z.output<P>, z.output<O>>): Decided<z.output<O>>;
  /** From stored bytes alone: a rebuild calls this and never `decide`. Row ids come from `entry.root`. */
  rows(entry: Entry<z.output<P>>, outcome: z.output<O>, stamp: Stamp): readonly ChangeIn<All>[];
  /**
   * Whether its bodies may be withheld once they are old. Kept for ever unless it says so: what a trace, or another record, stands on never goes.
   */
  readonly withholdable?: true;
  /** Version n of the payload → n + 1, on reading, never on the bytes. */
  readonly upcast?: Upcasters;
  /** The version of the outcome that `decide` gives; 1 unless it says otherwise. The hashed bytes say which one they hold. */
  readonly outcomeVersion?: number;
  /** Version n of the outcome → n + 1, on reading, never on the bytes. */
  readonly upcastOutcome?: Upcasters;
}

/** An entry that has been read: its types are known only inside, so a list of kinds has one type. */
export interface ReadEntry<All extends Registry> {
  readonly ok: true;
  readonly envelope: Envelope;
  readonly needs: readonly NeedIn<All>[];
  readonly books: readonly NamedBook[];
  then(state: StateIn<All>, stamp: Stamp): readonly NeedIn<All>[];
  decide(
    state: StateIn<All>,
    stamp: Stamp,
    previous: { readonly read: ReadEntry<All>; readonly outcome: unknown; readonly stamp: Stamp } | undefined,
  ): { readonly ok: true; readonly outcome: unknown } | Refused;
  /** An outcome of this version, as bytes hold it, as the newest version says it. Throws where it cannot be read. */
  outcomeOf(stored: unknown, version: number): unknown;
  /** Rows of this entry with that outcome, of the newest version. */
  rows(outcome: unknown, stamp: Stamp): readonly ChangeIn<All>[];
  readonly payload: unknown;
  /** When it happened, as far as that is known before it is recorded. */
  readonly at: string;
}

/** A declared kind: what it declares, its whole entry's schema for OpenAPI and typed clients, and how it is read. */
export interface Kind<All extends Registry, N extends string, P extends z.ZodType, O extends z.ZodType> extends KindSpec<All, N, P, O> {
  readonly schema: z.ZodObject;
  readonly outcomeVersion: number;
  /** Reads what a client sent. Never throws: what is wrong comes back as a refusal. */
  read(raw: unknown): ReadEntry<All> | Refused;
  /** Reads what the ledger holds, where a word may have been withheld since. */
  readStored(raw: unknown): ReadEntry<All> | Refused;
}

/** Any kind, where it does not matter which: its types are known only inside, so a list of kinds can be walked. */
export type AnyKind<All extends Registry> = Omit<
  Kind<All, string, z.ZodType, z.ZodType>,
  'needs' | 'books' | 'then' | 'decide' | 'rows' | 'upcast' | 'upcastOutcome' | 'examples'
> & { readonly examples: readonly unknown[] };

/**
 * Gives the function that declares kinds over a list of collections. Payload and outcome types are erased inside it, the one place where
 * both are known.
 */
export function kindsOver<All extends Registry>() {
  return function defineKind<const N extends string, P extends z.ZodType, O extends z.ZodType>(
    spec: KindSpec<All, N, P, O>,
  ): Kind<All, N, P, O> {
    const schema = envelope
      .safeExtend({ kind: z.literal<string>(spec.name), version: z.literal(spec.version), payload: spec.payload })
      .meta({ id: `Entry.${spec.name}`, description: spec.phrase });
    return {
      ...spec,
      outcomeVersion: spec.outcomeVersion ?? 1,
      schema,
      read: (raw) => readEntry(spec, raw, true),
      readStored: (raw) => readEntry(spec, raw, false),
    };
  };
}

function readEntry<All extends Registry, N extends string, P extends z.ZodType, O extends z.ZodType>(
  spec: KindSpec<All, N, P, O>,
  raw: unknown,
  fresh: boolean,
): ReadEntry<All> | Refused {
  const parsed = envelope.safeParse(raw);
  if (!parsed.success) return malformed(parsed.error);
  const envelopeRead = parsed.data;
  const wordProblem = fresh ? checkWords(spec.words ?? [], envelopeRead) : undefined;
  if (wordProblem) return wordProblem;
  if (envelopeRead.version > spec.version) return refuse('unknown-version', 'version', `1 to ${spec.version}`);
  const now = inSteps(spec.upcast ?? {}, envelopeRead.version, spec.version, envelopeRead.payload);
  const payloadRead = now.success ? spec.payload.safeParse(now.data) : now;
  if (!payloadRead.success) return malformed(payloadRead.error, ['payload']);
  const payload = payloadRead.data;
  const entries = new Map<string, Entry<z.output<P>>>(); // one, but where a commit is tried again: it is asked for at each step of a decision
  const entryAt = ({ recordedAt }: Stamp): Entry<z.output<P>> => {
    const entry = entries.get(recordedAt) ?? entryOf(envelopeRead, payload, recordedAt);
    entries.set(recordedAt, entry);
    return entry;
  };
  return {
    ok: true,
    envelope: envelopeRead,
    payload,
    at: happened(envelopeRead).at,
    needs: spec.needs(payload),
    books: spec.books?.(payload) ?? [],
    then: (state, stamp) => spec.then?.(payload, state, entryAt(stamp)) ?? [],
    decide: (state, stamp, previous) =>
      spec.decide(entryAt(stamp), state, {
        stamp,
        previous: previous && {
          payload: spec.payload.parse(previous.read.payload),
          outcome: spec.outcome.parse(previous.outcome),
          at: happened(previous.read.envelope, previous.stamp.recordedAt).at,
          person: previous.stamp.person,
        },
      }),
    outcomeOf: (stored, version) => outcomeNow(spec, stored, version),
    rows: (outcome, stamp) => spec.rows(entryAt(stamp), spec.outcome.parse(outcome), stamp),
  };
}

function entryOf<P>(e: Envelope, payload: P, recordedAt: string): Entry<P> {
  const words = e.words ?? {};
  return {
    id: e.id,
    root: e.corrects ?? e.id,
    version: e.version,
    corrects: e.corrects,
    payload,
    ...happened(e, recordedAt),
    doneBy: e.doneBy,
    device: e.device.id,
    word: (key) => words[key]?.text ?? null,
  };
}

function checkWords(allowed: readonly string[], e: Envelope): Refused | undefined {
  const stray = Object.keys(e.words ?? {}).find((key) => key !== 'reason' && !allowed.includes(key));
  if (stray !== undefined) return refuse('malformed', `words.${stray}`, `one of: ${['reason', ...allowed].join(', ')}`);
  if (e.corrects !== undefined && !saysSomething(e.words?.['reason']?.text))
    return refuse('correction-without-reason', 'words.reason', 'the reason for replacing the earlier record');
  return undefined;
}

function outcomeNow<All extends Registry, N extends string, P extends z.ZodType, O extends z.ZodType>(
  spec: KindSpec<All, N, P, O>,
  stored: unknown,
  version: number,
): z.output<O> {
  const newest = spec.outcomeVersion ?? 1;
  if (version > newest) throw new Error(`an outcome of ${spec.name} of version ${version}: this program knows 1 to ${newest}`);
  const now = inSteps(spec.upcastOutcome ?? {}, version, newest, stored);
  if (!now.success) throw now.error;
  return spec.outcome.parse(now.data);
}
