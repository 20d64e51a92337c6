import 'fake-indexeddb/auto';
import { idsFrom } from '../../libs/offline/src/ports/ids.js';
import type { Timer } from '../../libs/offline/src/ports/timer.js';
import { openDatabase } from '../../libs/offline/src/store/database.js';
import { Outbox, type EntryToSave } from '../../libs/offline/src/store/outbox.js';

let stores = 0;
/** A store of its own for each test; opened again, it still holds what was put in. */
export function newStore(): () => ReturnType<typeof openDatabase> {
  stores += 1;
  const name = `device ${stores}`;
  return () => openDatabase(name);
}

let made = 0;
/** Ids that rise, the same in every run. */
export const countingIds = idsFrom((bytes) => {
  made += 1;
  new DataView(bytes.buffer).setUint32(bytes.length - 4, made);
});
export const newId = (): string => countingIds.entry(new Date('2026-11-25T03:00:00Z'));

/** An entry as a tablet fixes it. */
export function draft(id: string, of: { after?: readonly string[]; typedBy?: string; what?: number } = {}): (seq: number) => EntryToSave {
  return (seq) => ({
    id,
    book: 'site',
    bookType: 'site',
    typedBy: of.typedBy ?? 'tam',
    savedAt: '2026-11-25T03:00:00.000Z',
    signature: null,
    entry: {
      id,
      kind: 'reading-taken',
      ...(of.after ? { after: of.after } : {}),
      device: { id: null, seq, clockErrorMs: 0 },
      payload: { what: of.what ?? 0 },
    },
  });
}

/** A timer that goes off when the test says so. */
export class HandTimer implements Timer {
  readonly asked: number[] = [];
  private run: (() => void) | undefined;

  after(ms: number, run: () => void): () => void {
    this.asked.push(ms);
    this.run = run;
    return () => {
      this.run = undefined;
    };
  }

  get waits(): boolean {
    return this.run !== undefined;
  }
  goOff(): void {
    const { run } = this;
    this.run = undefined;
    run?.();
  }
}

export const openOutbox = async (open: () => ReturnType<typeof openDatabase>): Promise<Outbox> => new Outbox(await open());
