import type { TraceView } from '@bakehouse/contracts';
import { whole } from '../format';
import { Notice } from '../../ui';

/** Whether the reader sees a part only: what is missing may have left the house, and nothing here says that it did not. */
export const isPartial = (trace: Pick<TraceView, 'hidden'>): boolean => trace.hidden.length > 0;

/** What there is none of, as far as the reader may look: of a part nobody says that there is none at all. */
export const noneText = (trace: Pick<TraceView, 'hidden'>, whole: string): string =>
  isPartial(trace) ? 'None at the sites that you may look at. Nothing is said here about the others.' : whole;

/** Above all that it makes incomplete: what is missing, where, and whom to ask. */
export function OnlyAPart({ trace }: { readonly trace: Pick<TraceView, 'hidden'> }) {
  if (!isPartial(trace)) return null;
  return (
    <div className="only-a-part">
      <Notice tone="bad" title="You see only a part of it: this list is not complete">
        <ul>
          {trace.hidden.map((h) => (
            <li key={h.site}>
              {h.site}: {whole(h.lots)} more {h.lots === 1 ? 'lot' : 'lots'} that you may not look at. Ask the manager of that site.
            </li>
          ))}
        </ul>
        <p>
          More customers may have some of it than are named here. Ask somebody whose role covers every site for the whole list; a part of it
          is not printed.
        </p>
      </Notice>
    </div>
  );
}
