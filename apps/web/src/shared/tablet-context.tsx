import { type Recorded, type Tablet, type TabletState } from '@bakehouse/offline';
import type { KindName, NewEntryOf } from '@bakehouse/records';
import { createContext, useCallback, useContext, useEffect, useState, useSyncExternalStore, type ReactNode } from 'react';
import type { People, Person } from './people';

interface AtTheTable {
  readonly tablet: Tablet;
  readonly people: People;
  readonly person: Person;
  /** Another name is to be tapped. */
  readonly leave: () => void;
}

const Context = createContext<AtTheTable | null>(null);

export function TabletProvider({ value, children }: { readonly value: AtTheTable; readonly children: ReactNode }) {
  return <Context value={value}>{children}</Context>;
}

/** The device and the person signed on. Only below the sign-on. */
export function useTable(): AtTheTable {
  const held = useContext(Context);
  if (!held) throw new Error('nobody is signed on above this');
  return held;
}

/** The device where there is one: an inspector's own pages stand on none. */
export const useTabletIfAny = (): Tablet | undefined => useContext(Context)?.tablet;

export function useTabletState(): TabletState {
  const { tablet } = useTable();
  return useSyncExternalStore(
    useCallback((changed) => tablet.subscribe(changed), [tablet]),
    () => tablet.state,
  );
}

/** Records in the name of the person signed on. */
export function useRecord(): <K extends KindName>(entry: NewEntryOf<K>) => Promise<Recorded<K>> {
  const { tablet, person } = useTable();
  return useCallback((entry) => tablet.record(entry, person.id), [tablet, person]);
}

/** The time, moving on in steps: by the clock of this device, less its known error. */
export function useNow(everyMs: number): string {
  const { tablet } = useTable();
  const [now, setNow] = useState(() => tablet.now().toISOString());
  useEffect(() => {
    const handle = setInterval(() => setNow(tablet.now().toISOString()), everyMs);
    return () => clearInterval(handle);
  }, [everyMs, tablet]);
  return now;
}
