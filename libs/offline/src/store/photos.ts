import { sha256, toHex } from '@bakehouse/ledger';
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import * as z from 'zod';

const stored = z.object({ site: z.string(), mediaType: z.string(), bytes: z.instanceof(Uint8Array), keptAt: z.string() });
export type StoredPhoto = z.infer<typeof stored> & { readonly id: string };

interface Stores extends DBSchema {
  /** By the SHA-256 of the bytes. */
  photo: { key: string; value: unknown };
}

/** How a sending ended: kept by the other side; refused for good; or to be tried again later. */
export type PhotoReply = 'kept' | 'refused' | 'later';

/** Photos that were taken here and are not sent yet. They wait in a store of their own, so that a large one never stands in an entry's way. */
export class Photos {
  private sending: Promise<void> | undefined;

  private constructor(private readonly database: IDBPDatabase<Stores>) {}

  static async open(name: string): Promise<Photos> {
    const database = await openDB<Stores>(name, 1, {
      upgrade(created) {
        created.createObjectStore('photo');
      },
    });
    return new Photos(database);
  }

  /** Keeps a photo until it is sent, and gives the hash that an entry names. The same picture twice is one. */
  async keep(photo: Omit<StoredPhoto, 'id'>): Promise<string> {
    const id = toHex(sha256(photo.bytes));
    await this.database.put('photo', photo, id);
    return id;
  }

  /** One that is not sent yet; undefined where it was, or was never here. */
  async get(id: string): Promise<StoredPhoto | undefined> {
    const { data } = stored.safeParse(await this.database.get('photo', id));
    return data && { ...data, id };
  }

  waiting(): Promise<number> {
    return this.database.count('photo');
  }

  /** Sends what waits, one after the other, up to the first that has to wait; asked again while it is busy, it goes on with what it does. */
  send(one: (photo: StoredPhoto) => Promise<PhotoReply>): Promise<void> {
    this.sending ??= this.sendAll(one).finally(() => {
      this.sending = undefined;
    });
    return this.sending;
  }

  private async sendAll(one: (photo: StoredPhoto) => Promise<PhotoReply>): Promise<void> {
    for (const id of await this.database.getAllKeys('photo')) {
      const photo = await this.get(id);
      if (!photo) continue; // cannot be read: it stays where it is, and the next ones are sent all the same
      const reply = await one(photo);
      if (reply === 'later') return;
      if (reply === 'kept') await this.database.delete('photo', id);
    }
  }
}
