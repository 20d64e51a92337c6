import type { TraceView } from '@bakehouse/contracts';
import { useState } from 'react';
import { TickedLots } from '../../shared/ticked-lots';
import { alikeText } from '../../shared/trace/alike';
import { Field, Section } from '../../ui';

/** The lots with the same code as the one that a case is opened on: all in it, until somebody takes one off and says why. */
export function useSameCode(trace: TraceView | null, zone: string) {
  const [without, setWithout] = useState<readonly string[]>([]);
  const [why, setWhy] = useState('');
  const lots = (trace?.alike ?? []).map((l) => ({ lot: l.lot, text: alikeText(l, zone) }));
  const leftOut = lots.filter((l) => without.includes(l.lot)).map((l) => l.text);
  return {
    suspects: lots.flatMap((l) => (without.includes(l.lot) ? [] : l.lot)),
    /** What the case says of those that are left out. */
    said: leftOut.length === 0 ? '' : `Left out: ${leftOut.join('; ')}. Why: ${why.trim()}`,
    missing: leftOut.length > 0 && why.trim() === '' ? 'Say why a lot of the same code is left out.' : null,
    section:
      lots.length === 0 ? null : (
        <Section title="Other lots have the same lot code">
          <p>They may be the same lot of the supplier’s. Take one off only where you know that it is not, and say why.</p>
          <TickedLots label="Also in this case" lots={lots} without={without} onChange={setWithout} />
          {leftOut.length === 0 ? null : (
            <Field label="Why they are left out" value={why} onChange={setWhy} lines={2} maxLength={500} required />
          )}
        </Section>
      ),
  };
}
