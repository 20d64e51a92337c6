import { collectionNames, type Dirty, type Snapshot } from '@bakehouse/records';

/** A snapshot with changes on top: rows written anew, added, or gone. The snapshot itself stays as it is. */
export function overlay(base: Snapshot, dirty: Dirty): Snapshot {
  const rows: Partial<Record<keyof Snapshot, unknown[]>> = {};
  for (const name of collectionNames) {
    const changes = dirty.get(name);
    if (!changes) continue;
    const written = [...changes].flatMap(([id, change]) => (change ? [{ ...change.row, id }] : []));
    rows[name] = [...base[name].filter((row) => !changes.has(row.id)), ...written];
  }
  return { ...base, ...rows } as Snapshot; // a change of a collection holds a row of that collection, by the type of Change
}
