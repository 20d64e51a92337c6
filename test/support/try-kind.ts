import { WorkingSet, type AnyKind, type Change, type CollectionName, type Rows } from '@bakehouse/records';
import { type Refused, type Stamp } from '@bakehouse/kernel';

type Base = { [C in CollectionName]: { in: C; id: string; row: Rows[C] } }[CollectionName];

export interface Attempt {
  readonly payload: unknown;
  readonly words?: Readonly<Record<string, string>>;
  readonly at?: string;
  readonly doneBy?: string | null;
  /** The content that this one replaces; its id is the root. */
  readonly replaces?: Recorded;
}
export interface Recorded {
  readonly ok: true;
  readonly id: string;
  readonly raw: unknown;
  readonly outcome: unknown;
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
  record(kind: AnyKind, attempt: Attempt): Recorded | Refused {
    const id = testId((this.next += 1));
    const salt = '00'.repeat(16);
    const reason = attempt.replaces ? { reason: { text: 'typed wrongly', salt } } : {};
    const words = { ...reason, ...Object.fromEntries(Object.entries(attempt.words ?? {}).map(([key, text]) => [key, { text, salt }])) };
    const raw = {
      id,
      kind: kind.name,
      version: kind.version,
      occurredAt: { at: attempt.at ?? '2026-11-25T04:40:00+00:00', precision: 'exact' },
      doneBy: attempt.doneBy ?? null,
      device: { id: null, seq: 0, clockErrorMs: null },
      payload: attempt.payload,
      ...(attempt.replaces ? { corrects: attempt.replaces.id } : {}),
      ...(Object.keys(words).length > 0 ? { words } : {}),
    };
    const entry = kind.read(raw);
    if (!entry.ok) return entry;
    const before = attempt.replaces ? kind.readStored(attempt.replaces.raw) : undefined;
    const result = entry.decide(this.set, stamp, before?.ok ? before : undefined, attempt.replaces?.outcome);
    if (!result.ok) return result;
    const rows = entry.rows(result.outcome, stamp);
    this.set.apply({ entry: id, seq: stamp.seq }, rows, attempt.replaces?.rows ?? []);
    return { ok: true, id: attempt.replaces?.id ?? id, raw, outcome: result.outcome, rows };
  }

  /** As `record`, where the test goes on from what was recorded. */
  recorded(kind: AnyKind, attempt: Attempt): Recorded {
    const result = this.record(kind, attempt);
    if (!result.ok) throw new Error(`refused: ${JSON.stringify(result)}`);
    return result;
  }

  /** A row as it stands now. */
  row<C extends CollectionName>(collection: C, id: string) {
    return this.set.get(collection, id);
  }
}
