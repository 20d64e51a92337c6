import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction } from 'idb';

interface Stores extends DBSchema {
  /** By device sequence. Values are read as unknown: what a store gives back is checked before it is believed. */
  outbox: { key: number; value: unknown };
  kept: { key: string; value: unknown };
}
export type Database = IDBPDatabase<Stores>;
/** A change of entries together with the counts of them. */
export type CountsTransaction = IDBPTransaction<Stores, ['outbox', 'kept'], 'readwrite'>;

/** Opens the device's store. @throws where the browser cannot or will not: the caller says so, and nothing is taken for empty */
export async function openDatabase(name: string): Promise<Database> {
  return openDB<Stores>(name, 1, {
    upgrade(database) {
      database.createObjectStore('outbox');
      database.createObjectStore('kept');
    },
  });
}
