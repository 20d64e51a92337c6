import { newEnvelope, type Refused, type Stamp } from '@bakehouse/kernel';
import { WorkingSet, type Change, type CollectionName, type Kind, type Rows } from '@bakehouse/records';
import type * as z from 'zod';

type Base = { [C in CollectionName]: { in: C; id: string; row: Rows[C] } }[CollectionName];

export interface Attempt<P> {
  readonly payload: P;
  readonly words?: Readonly<Record<string, string>>;
  readonly at?: string;
  readonly doneBy?: string | null;
  /** The content that this one replaces; its id is the root. */
  readonly replaces?: Recorded<unknown>;
}
export interface Recorded<O> {
  readonly ok: true;
  readonly id: string;
  readonly raw: unknown;
  readonly outcome: O;
  readonly rows: readonly Change[];
}

export const testId = (n: number): string => `0190a6d0-7b3c-7000-8000-${n.toString(16).padStart(12, '0')}`;
export const stamp: Stamp = {
  recordedAt: '2026-11-25T05:00:00.000Z',
  seq: 7,
  organisation: testId(1),
  book: testId(2),
  person: testId(3),
  zone: 'Europe/London',
};

/** One house as it stands, on which kinds are tried as the server and the tablet do: read, decide, rows, apply. */
export class House {
  private readonly set = new WorkingSet(true);
  private next = 0xe000;

  constructor(base: readonly Base[] = []) {
    for (const { in: collection, id, row } of base) this.set.base(collection, { id, ...row });
  }

  /** Records one entry of the kind, or tells why not. What is recorded changes the house. */
  record<N extends string, P extends z.ZodType, O extends z.ZodType>(
    kind: Kind<N, P, O>,
    attempt: Attempt<z.input<P>>,
  ): Recorded<z.output<O>> | Refused {
    return this.recordRaw(kind, attempt);
  }

  /** The same of a payload that is wrong on purpose. */
  recordRaw<N extends string, P extends z.ZodType, O extends z.ZodType>(
    kind: Kind<N, P, O>,
    { payload, words, at = '2026-11-25T04:40:00+00:00', doneBy = null, replaces }: Attempt<unknown>,
  ): Recorded<z.output<O>> | Refused {
    const id = testId((this.next += 1));
    const raw = newEnvelope(
      {
        id,
        kind: kind.name,
        version: kind.version,
        payload,
        at,
        doneBy,
        device: { id: null, seq: 0, clockErrorMs: null },
        corrects: replaces?.id,
        words: { ...(replaces && { reason: 'typed wrongly' }), ...words },
      },
      () => '00'.repeat(16),
    );
    const entry = kind.read(raw);
    if (!entry.ok) return entry;
    const before = replaces ? kind.readStored(replaces.raw) : undefined;
    const result = entry.decide(this.set, stamp, before?.ok ? { read: before, outcome: replaces?.outcome, stamp } : undefined);
    if (!result.ok) return result;
    const rows = entry.rows(result.outcome, stamp);
    this.set.apply({ entry: id, seq: stamp.seq }, rows, replaces?.rows ?? []);
    return { ok: true, id: replaces?.id ?? id, raw, outcome: kind.outcome.parse(result.outcome), rows };
  }

  /** As `record`, where the test goes on from what was recorded. */
  recorded<N extends string, P extends z.ZodType, O extends z.ZodType>(
    kind: Kind<N, P, O>,
    attempt: Attempt<z.input<P>>,
  ): Recorded<z.output<O>> {
    const result = this.record(kind, attempt);
    if (!result.ok) throw new Error(`refused: ${JSON.stringify(result)}`);
    return result;
  }

  /** A row as it stands now. */
  row<C extends CollectionName>(collection: C, id: string) {
    return this.set.get(collection, id);
  }
}
