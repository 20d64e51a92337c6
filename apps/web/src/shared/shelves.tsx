import type { ShelvesView } from '@bakehouse/contracts';
import { shelvesText, type ComesOff } from '@bakehouse/views';
import { StateWord } from '../ui';

/** Where customers may take it, and where that is so, that it has to come off there. Nothing where it stands nowhere. */
export function Shelves({ shelves, off }: { readonly shelves: ShelvesView; readonly off: ComesOff }) {
  return shelvesText(shelves, off).map((text) => (
    <StateWord key={text} shape={off ? 'diamond' : 'ring'} tone={off === 'practice' ? 'ask' : off ? 'bad' : 'calm'}>
      {text}
    </StateWord>
  ));
}
