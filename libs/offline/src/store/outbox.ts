import { problems } from '@bakehouse/kernel';
import { countsFrom, countsKey, damageOf, spoiltCountsKey, type Counts, type Damage } from './counts.js';
import type { CountsTransaction, Database } from './database.js';
import { isPending, refusedFor, savedEntry, type Fate, type SavedEntry } from './saved-entry.js';

export interface OutboxContent {
  readonly entries: readonly SavedEntry[];
  readonly damage: readonly Damage[];
}
export type EntryToSave = Omit<SavedEntry, 'seq' | 'attempts' | 'fate'>;

/** Everything that was typed on this device, in the order it was saved. Nothing leaves it before the other side has recorded it and shown it back. */
export class Outbox {
  constructor(private readonly database: Database) {}

  /**
   * Saves one entry under the next device sequence, both in one transaction, so that two tabs never share a number and a cut-off leaves neither.
   * `build` is given the number, since the entry holds it. `reserved` is a number that was drawn before.
   */
  async save(build: (seq: number) => EntryToSave, reserved?: number): Promise<SavedEntry> {
    const tx = this.database.transaction(['outbox', 'kept'], 'readwrite', { durability: 'strict' });
    const counts = await countsIn(tx);
    const seq = reserved ?? counts.lastSeq + 1;
    const saved: SavedEntry = { ...build(seq), seq, attempts: 0, fate: { as: 'to-send' } };
    const next: Counts = { ...counts, lastSeq: Math.max(seq, counts.lastSeq), saved: counts.saved + 1 };
    await Promise.all([tx.objectStore('outbox').add(saved, seq), tx.objectStore('kept').put(next, countsKey), tx.done]);
    return saved;
  }

  /** Draws the next device sequence for an entry that must be fixed before it is saved: one that is signed. */
  async reserve(): Promise<number> {
    const tx = this.database.transaction(['outbox', 'kept'], 'readwrite');
    const counts = await countsIn(tx);
    const next: Counts = { ...counts, lastSeq: counts.lastSeq + 1 };
    await Promise.all([tx.objectStore('kept').put(next, countsKey), tx.done]);
    return next.lastSeq;
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

  /** Stores the fates of these entries. A fate never overtakes "recorded": a late reply cannot take back an earlier one. */
  settle(fates: ReadonlyMap<number, Fate>): Promise<void> {
    return this.change([...fates.keys()], (saved) => ({
      ...saved,
      fate: saved.fate.as === 'recorded' ? saved.fate : (fates.get(saved.seq) ?? saved.fate),
    }));
  }

  /**
   * What waits for an entry of this device that was refused would wait for ever, where the other side never got to know that one: it is shown to a person
   * with it. Answers whether there was any.
   */
  async refuseWhatFollows(): Promise<boolean> {
    const tx = this.database.transaction('outbox', 'readwrite');
    const entries = (await tx.store.getAll()).flatMap((value) => savedEntry.safeParse(value).data ?? []);
    const refused = new Set(entries.flatMap((e) => (e.fate.as === 'refused' ? [e.id] : [])));
    const follows = ({ fate }: SavedEntry): boolean => fate.as === 'waiting' && fate.waitingFor.some((id) => refused.has(id));
    let waiting = entries.filter((e) => e.fate.as === 'waiting');
    let found = false;
    for (let some = waiting.filter(follows); some.length > 0; some = waiting.filter(follows)) {
      found = true;
      for (const saved of some) {
        refused.add(saved.id);
        await tx.store.put({ ...saved, fate: refusedFor({ problem: 'depends-on-refused', ...problems['depends-on-refused'] }) }, saved.seq);
      }
      waiting = waiting.filter((e) => !some.includes(e));
    }
    await tx.done;
    return found;
  }

  /** A person reviewed a refused entry: it is sent again unchanged, or discarded. */
  answer(seq: number, answer: 'again' | 'archived'): Promise<void> {
    return this.change([seq], (saved) =>
      saved.fate.as !== 'refused'
        ? saved
        : { ...saved, signature: null, fate: answer === 'again' ? { as: 'to-send' } : { ...saved.fate, archived: true } },
    );
  }

  /** A snapshot came that holds the first `size` entries of a book. */
  async shown(sizes: ReadonlyMap<string, number>): Promise<void> {
    const tx = this.database.transaction('outbox', 'readwrite');
    for await (const cursor of tx.store) {
      const { data } = savedEntry.safeParse(cursor.value);
      if (data?.fate.as !== 'recorded' || data.fate.shown || data.fate.seq >= (sizes.get(data.fate.book) ?? 0)) continue;
      await cursor.update({ ...data, fate: { ...data.fate, shown: true } });
    }
    await tx.done;
  }

  /**
   * Lets go of what was recorded and shown, and saved before an instant. It is looked for, deleted and counted in one transaction: another tab may
   * be doing the same.
   */
  async prune(before: string): Promise<void> {
    const tx = this.database.transaction(['outbox', 'kept'], 'readwrite');
    const counts = await countsIn(tx);
    let letGo = 0;
    for await (const cursor of tx.objectStore('outbox')) {
      const { data } = savedEntry.safeParse(cursor.value);
      if (data?.fate.as !== 'recorded' || !data.fate.shown || data.savedAt >= before) continue;
      await cursor.delete();
      letGo += 1;
    }
    if (letGo > 0) await tx.objectStore('kept').put({ ...counts, letGo: counts.letGo + letGo } satisfies Counts, countsKey);
    await tx.done;
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

/** The counts to go on from. Those that cannot be read are moved aside and replaced in the same transaction. */
async function countsIn(tx: CountsTransaction): Promise<Counts> {
  const [outbox, kept] = [tx.objectStore('outbox'), tx.objectStore('kept')];
  const [stored, there, last] = [await kept.get(countsKey), await outbox.count(), await outbox.openKeyCursor(null, 'prev')];
  const { counts, spoilt } = countsFrom(stored, there, last?.key ?? -1);
  if (spoilt) await Promise.all([kept.put(stored, spoiltCountsKey), kept.put(counts, countsKey)]);
  return counts;
}

/** What is still to be sent, in the order it was saved. */
export const pendingOf = (entries: readonly SavedEntry[]): SavedEntry[] => entries.filter(isPending);
