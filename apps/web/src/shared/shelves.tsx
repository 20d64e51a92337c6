import type { ShelvesView } from '@bakehouse/contracts';
import { shelvesText } from '@bakehouse/views';
import { StateWord } from '../ui';

/** That customers may take what is on hold or recalled, where, and that it has to come off there. Nothing where it stands nowhere. */
export function Shelves({ shelves }: { readonly shelves: ShelvesView }) {
  return shelvesText(shelves).map((text) => (
    <StateWord key={text} shape="diamond" tone="bad">
      {text}
    </StateWord>
  ));
}
