import type { Refused } from '@bakehouse/kernel';
import type { KindName, NewEntryOf, OutcomeOf } from '@bakehouse/records';
import { useMemo } from 'react';
import { useTable, useTabletState } from '../tablet-context';

export type Preview<K extends KindName> = { readonly ok: true; readonly outcome: OutcomeOf<K> } | Refused;

/**
 * What an entry would meet, were it recorded now: by what judges it when it is, and nothing worked out here. Asked once for each draft that says
 * something else, and again where the rows have changed; undefined where there is nothing to ask.
 */
export function usePreview<K extends KindName>(draft: NewEntryOf<K> | undefined): Preview<K> | undefined {
  const { tablet, person } = useTable();
  const state = useTabletState();
  const said = JSON.stringify(draft);
  return useMemo(() => (draft === undefined ? undefined : tablet.judge(draft, person.id)), [tablet, person.id, state, said]);
}
