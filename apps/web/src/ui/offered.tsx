import type { Permission } from '@bakehouse/kernel';
import { createContext, useCallback, useContext, useLayoutEffect, useMemo, useState, type ReactNode } from 'react';
import { later } from './later';

/** What the person signed on may do, and what there is to be done at an address: what somebody may not do is not offered. */
export interface Offered {
  readonly may: (permission: Permission) => boolean;
  /** Any one of these is enough; none where the address is to be looked at. */
  readonly neededAt: (to: string) => readonly Permission[];
}
/** Before anybody is signed on nothing is hidden: there is nothing to hide. */
export const OfferedTo = createContext<Offered>({ may: () => true, neededAt: () => [] });

type Hide = (permission: Permission) => () => void;
const Hidden = createContext<Hide | null>(null);
const WhoMay = later(() => import('./who-may').then((m) => m.WhoMay));

/** Whether this is offered. Where it is not, the screen around it says who may. */
function useOffered(any: readonly Permission[]): boolean {
  const { may } = useContext(OfferedTo);
  const hide = useContext(Hidden);
  const [first] = any;
  const offered = first === undefined || any.some(may);
  useLayoutEffect(() => (offered ? undefined : hide?.(first)), [offered, hide, first]);
  return offered;
}

const none: readonly Permission[] = [];
/** Whether the person may do what needs this. */
export const useMay = (needs: Permission | undefined): boolean =>
  useOffered(useMemo(() => (needs === undefined ? none : [needs]), [needs]));
/** Whether what is done at an address is for the person. */
export const useMayGo = (to: string): boolean => useOffered(useContext(OfferedTo).neededAt(to));

/** A part of a page for those alone who may do what is done there. */
export function For({ needs, children }: { readonly needs: Permission; readonly children: ReactNode }) {
  return useMay(needs) ? children : null;
}

/** A screen's own note of what it does not offer: the note, and what goes around all that may be hidden. */
export function useWhoMay() {
  const [hidden, setHidden] = useState<readonly Permission[]>([]);
  const hide = useCallback<Hide>((permission) => {
    setHidden((all) => [...all, permission]);
    return () =>
      setHidden((all) => {
        const at = all.indexOf(permission);
        return all.filter((_, i) => i !== at);
      });
  }, []);
  const Around = useCallback(({ children }: { readonly children: ReactNode }) => <Hidden value={hide}>{children}</Hidden>, [hide]);
  return { Around, note: hidden.length === 0 ? null : <WhoMay to={[...new Set(hidden)]} /> };
}
