import { lazy, type ComponentType } from 'react';
import { Table } from './table/table';

/** The shells, by the address that they begin with. The first screen of the table is loaded with the page; the others come when they are opened. */
export const shells: readonly { readonly at: string; readonly Shell: ComponentType }[] = [
  { at: '/table', Shell: Table },
  { at: '/office', Shell: lazy(() => import('./office/office').then((m) => ({ default: m.Office }))) },
  { at: '/inspector', Shell: lazy(() => import('./inspector/inspector').then((m) => ({ default: m.Inspector }))) },
  { at: '/counter', Shell: lazy(() => import('./counter/counter').then((m) => ({ default: m.CounterPage }))) },
];
