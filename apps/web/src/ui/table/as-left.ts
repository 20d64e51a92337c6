import { createContext } from 'react';
import type { SortingState } from '@tanstack/react-table';

export interface TableAsLeft {
  readonly sorting: SortingState;
  readonly words: string;
  readonly page: number;
}
export const untouched: TableAsLeft = { sorting: [], words: '', page: 0 };

/** How the tables of a list were left while one of it is a page of its own, and which row gets the focus when the list is there again. */
export interface Kept {
  readonly tables: Map<string, TableAsLeft>;
  focus: string | undefined;
}
export const newKept = (): Kept => ({ tables: new Map(), focus: undefined });
export const AsLeft = createContext<Kept | null>(null);
