import type { ComponentType } from 'react';
import { Table } from './table/table';

/** The shells, by the address that they begin with. The table's is loaded with the page, so that it starts without a network; others may be lazy. */
export const shells: readonly { readonly at: string; readonly Shell: ComponentType }[] = [
  { at: '/table', Shell: Table },
];
