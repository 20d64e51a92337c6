import type { CounterView } from '@bakehouse/contracts';
import { countText, grouped, sumOfKnown } from '@bakehouse/kernel';
import { whenText } from '../../shared/format';
import { Notice } from '../../ui';

type Held = CounterView['held'][number];

/** What customers may take although it is on hold, product by product: each code once, with how many are there. */
export function DoNotSell({ held, now, zone }: { readonly held: readonly Held[]; readonly now: string; readonly zone: string }) {
  if (held.length === 0) return null;
  const codes = grouped(held, (h) => `${h.name} ${h.code ?? ''} ${h.shop ?? ''}`);
  const products = grouped([...codes.values()], ([first]) => first?.name ?? '');
  return (
    <Notice tone="bad" title="On hold: do not sell">
      <ul>
        {[...products].map(([name, of]) => (
          <li key={name}>
            <strong>{name}</strong>: {of.map((lots) => lotsText(lots, now, zone)).join('; ')}
          </li>
        ))}
      </ul>
      <p>Take it off the counter, keep it apart, and tell the person who decides.</p>
    </Notice>
  );
}

function lotsText(lots: readonly Held[], now: string, zone: string): string {
  const pieces = sumOfKnown(lots.map((h) => h.pieces));
  const since = lots.flatMap((h) => h.since ?? []).sort()[0];
  const [first] = lots;
  return [
    first?.code ?? 'no code',
    pieces === null ? 'how many is not known' : countText(pieces, 'piece'),
    since === undefined ? `in ${first?.shop ?? 'the shop'}` : `on the counter since ${whenText(since, now, zone)}`,
  ].join(', ');
}
