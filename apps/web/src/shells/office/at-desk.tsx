import type { ReactNode } from 'react';
import { Router, useLocation, type AroundNavHandler, type BaseLocationHook } from 'wouter';
import { useBrowserLocation } from 'wouter/use-browser-location';
import { later } from '../../ui/later';

const Today = later(() => import('../../features/night/today').then((m) => m.Today));
const NightScreens = later(() => import('../table/screens').then((m) => m.NightScreens));

const [table, bake] = ['/table', '/office/bake'] as const;

/** The table’s pages have an address of the office as well: who reads one at the desk stays in the office. */
const atDesk = (to: string): string => (to === table || to.startsWith(`${table}/`) ? `${bake}${to.slice(table.length)}` : to);
const around: AroundNavHandler = (navigate, to, options) => navigate(atDesk(to), options);

/** Whatever leads from the office to a page of the table leads to the same page in the office. */
export const AtDesk = ({ children }: { readonly children: ReactNode }) => (
  <Router hrefs={atDesk} aroundNav={around}>
    {children}
  </Router>
);

/** For the table’s pages the address is as it is at the table. */
const useTableLocation: BaseLocationHook = (options) => {
  const [location, navigate] = useBrowserLocation(options);
  return [location.startsWith(bake) ? `${table}${location.slice(bake.length)}` : location, navigate];
};

/** A page of the night, read at the desk. */
export function Bake() {
  const [location] = useLocation();
  return (
    <Router hook={useTableLocation} hrefs={atDesk} aroundNav={around}>
      {location === bake ? <Today /> : <NightScreens />}
    </Router>
  );
}
