import { countsFrom, countsKey, damageOf, spoiltCountsKey, type Counts, type Damage } from './counts.js';
import type { Database } from './database.js';
import { isPending, savedEntry, type Fate, type SavedEntry } from './saved-entry.js';

export interface OutboxContent {
  readonly entries: readonly SavedEntry[];
  readonly damage: readonly Damage[];
}
export type NewEntry = Omit<SavedEntry, 'seq' | 'attempts' | 'fate'>;

/** Everything that was typed on this device, in the order it was saved. Nothing leaves it before the other side has recorded it and shown it back. */
export class Outbox {
  constructor(private readonly database: Database) {}

  /**
   * Saves one entry under the next device sequence, both in one transaction, so that two tabs never share a number and a cut-off leaves neither.
   * `build` is given the number, since the entry holds it. `reserved` is a number that was drawn before.
   */
  async save(build: (seq: number) => NewEntry, reserved?: number): Promise<SavedEntry> {
    const tx = this.database.transaction(['outbox', 'kept'], 'readwrite', { durability: 'strict' });
    const [outbox, kept] = [tx.objectStore('outbox'), tx.objectStore('kept')];
    const [stored, there, last] = [await kept.get(countsKey), await outbox.count(), await outbox.openKeyCursor(null, 'prev')];
    const { counts, spoilt } = countsFrom(stored, there, last?.key ?? -1);
    const seq = reserved ?? counts.lastSeq + 1;
    const saved: SavedEntry = { ...build(seq), seq, attempts: 0, fate: { as: 'to-send' } };
    const next: Counts = { ...counts, lastSeq: Math.max(seq, counts.lastSeq), saved: counts.saved + 1 };
    await Promise.all([outbox.add(saved, seq), kept.put(next, countsKey), ...(spoilt ? [kept.put(stored, spoiltCountsKey)] : []), tx.done]);
    return saved;
  }

  /** Draws the next device sequence for an entry that must be fixed before it is saved: one that is signed. */
  async reserve(): Promise<number> {
    const tx = this.database.transaction(['outbox', 'kept'], 'readwrite');
    const [outbox, kept] = [tx.objectStore('outbox'), tx.objectStore('kept')];
    const [stored, there, last] = [await kept.get(countsKey), await outbox.count(), await outbox.openKeyCursor(null, 'prev')];
    const { counts, spoilt } = countsFrom(stored, there, last?.key ?? -1);
    const seq = counts.lastSeq + 1;
    await Promise.all([
      kept.put({ ...counts, lastSeq: seq } satisfies Counts, countsKey),
      ...(spoilt ? [kept.put(stored, spoiltCountsKey)] : []),
      tx.done,
    ]);
    return seq;
  }

  /** What is there, with whatever does not fit. What cannot be read stays where it is. */
  async read(): Promise<OutboxContent> {
    const tx = this.database.transaction(['outbox', 'kept']);
    const kept = tx.objectStore('kept');
    const [values, stored, spoilt] = await Promise.all([
      tx.objectStore('outbox').getAll(),
      kept.get(countsKey),
      kept.get(spoiltCountsKey),
      tx.done,
    ]);
    const read = values.map((value) => ({ value, parsed: savedEntry.safeParse(value) }));
    const unreadable = read.flatMap(({ value, parsed }) => (parsed.success ? [] : [value]));
    return {
      entries: read.flatMap(({ parsed }) => (parsed.success ? [parsed.data] : [])),
      damage: damageOf(stored, spoilt, values.length, unreadable),
    };
  }

  /** Notes that these are being sent once more. */
  tried(seqs: readonly number[]): Promise<void> {
    return this.change(seqs, (saved) => ({ ...saved, attempts: saved.attempts + 1 }));
  }

  /** Notes what became of these. A fate never overtakes "recorded": a late reply cannot take back an earlier one. */
  settle(fates: ReadonlyMap<number, Fate>): Promise<void> {
    return this.change([...fates.keys()], (saved) => ({
      ...saved,
      fate: saved.fate.as === 'recorded' ? saved.fate : (fates.get(saved.seq) ?? saved.fate),
    }));
  }

  /** A person looked at what was refused: it is sent again as it stands, or put away. */
  answer(seq: number, answer: 'again' | 'archived'): Promise<void> {
    return this.change([seq], (saved) =>
      saved.fate.as !== 'refused'
        ? saved
        : { ...saved, signature: null, fate: answer === 'again' ? { as: 'to-send' } : { ...saved.fate, archived: true } },
    );
  }

  /** A snapshot came that holds the first `size` entries of a book. */
  async shown(sizes: ReadonlyMap<string, number>): Promise<void> {
    const { entries } = await this.read();
    const fits = (e: SavedEntry): boolean => e.fate.as === 'recorded' && !e.fate.shown && e.fate.seq < (sizes.get(e.fate.book) ?? 0);
    await this.change(
      entries.filter(fits).map((e) => e.seq),
      (e) => ({ ...e, fate: e.fate.as === 'recorded' ? { ...e.fate, shown: true } : e.fate }),
    );
  }

  /** Lets go of what was recorded and shown, and saved before an instant. */
  async prune(before: string): Promise<void> {
    const { entries } = await this.read();
    const old = entries.filter((e) => e.fate.as === 'recorded' && e.fate.shown && e.savedAt < before).map((e) => e.seq);
    if (old.length === 0) return;
    const tx = this.database.transaction(['outbox', 'kept'], 'readwrite');
    const [outbox, kept] = [tx.objectStore('outbox'), tx.objectStore('kept')];
    const { counts } = countsFrom(await kept.get(countsKey), await outbox.count(), -1);
    await kept.put({ ...counts, letGo: counts.letGo + old.length } satisfies Counts, countsKey);
    await Promise.all([...old.map((seq) => outbox.delete(seq)), tx.done]);
  }

  private async change(seqs: readonly number[], next: (saved: SavedEntry) => SavedEntry): Promise<void> {
    if (seqs.length === 0) return;
    const tx = this.database.transaction('outbox', 'readwrite');
    for (const seq of seqs) {
      const { data } = savedEntry.safeParse(await tx.store.get(seq));
      if (data) await tx.store.put(next(data), seq);
    }
    await tx.done;
  }
}

/** What is still to be sent, in the order it was saved. */
export const pendingOf = (entries: readonly SavedEntry[]): SavedEntry[] => entries.filter(isPending);
