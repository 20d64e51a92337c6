import type { Flows, BandLook } from './model';

const words: Readonly<Record<BandLook, string>> = { certain: 'certain', possible: 'possible', gate: 'on hold', unknown: 'not known' };
const order: readonly BandLook[] = ['certain', 'possible', 'gate', 'unknown'];

/** What the looks of the bands say: only those that are there. */
export function Legend({ flows }: { readonly flows: Flows }) {
  const there = new Set(flows.flows.map((f) => f.look));
  return (
    <span className="flow-legend">
      {order
        .filter((look) => there.has(look))
        .map((look) => (
          <span key={look}>
            <svg width="36" height="12" aria-hidden="true" focusable="false">
              <rect className={`flow-band ${look}`} x="1" y="1" width="34" height="10" />
            </svg>
            {words[look]}
          </span>
        ))}
    </span>
  );
}
