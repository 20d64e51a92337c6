import type { Allergen } from '@bakehouse/kernel';
import { phrase, type OutcomeOf } from '@bakehouse/records';
import { Notice } from '../../ui';

/** What comes in with a lot that was just opened: allergens that were not there before, and whether it should be used at all. */
export function OpenedNotice({
  found: {
    name,
    newAllergens: { contains, mayContain },
    trouble,
    alikeHeld,
    instead,
  },
}: {
  readonly found: OutcomeOf<'lot-opened'>;
}) {
  const said = (list: readonly Allergen[]): string => list.map((a) => phrase(`allergen.${a}`)).join(', ');
  return (
    <>
      {trouble === null ? null : (
        <Notice tone="bad" title={`${name}: ${phrase(`trouble.${trouble}`)}`}>
          <p>It is on record that it was opened. Take another one, or ask the person who decides.</p>
        </Notice>
      )}
      {alikeHeld === null || alikeHeld.length === 0 ? null : (
        <Notice tone="ask" title={`${name}: another lot with the same code is on hold`}>
          <p>They may be one lot of the supplier’s. Look at what speaks against the other, and ask the person who decides.</p>
        </Notice>
      )}
      {contains.length + mayContain.length === 0 ? null : (
        <Notice tone="ask" title={`${name} brings in something new`}>
          {contains.length === 0 ? null : <p>Now contains: {said(contains)}.</p>}
          {mayContain.length === 0 ? null : <p>Now may contain: {said(mayContain)}.</p>}
          <p>Tickets and labels of what is made with it from now on must say so.</p>
        </Notice>
      )}
      {contains.length + mayContain.length === 0 && trouble === null ? (
        <Notice tone="good" title={`${name} is open${instead ? ', used instead' : ''}`} />
      ) : null}
    </>
  );
}
