import type { ShelvesView } from '@bakehouse/contracts';
import { shelvesText } from '@bakehouse/views';
import { StateWord } from '../ui';

/** Where customers may take it, and where that is so, that it has to come off there. Nothing where it stands nowhere. */
export function Shelves({ shelves, off }: { readonly shelves: ShelvesView; readonly off: boolean }) {
  return shelvesText(shelves, off).map((text) => (
    <StateWord key={text} shape={off ? 'diamond' : 'ring'} tone={off ? 'bad' : 'calm'}>
      {text}
    </StateWord>
  ));
}
