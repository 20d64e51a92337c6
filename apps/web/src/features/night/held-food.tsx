import { concernText } from '@bakehouse/records';
import type { HeldFood as Held } from '@bakehouse/views';
import { Link } from 'wouter';
import { OnHold } from '../../shared/concerns';
import { whole } from '../../shared/format';
import { codeText } from '../../shared/night/code-text';
import { paths } from '../../shared/night/paths';
import type { Night } from '../../shared/night/use-night';
import { office } from '../../shared/office-paths';
import { amountText, dayTime } from '../../shared/trace/words';
import { Section } from '../../ui';

/** So many are shown before the rest is folded away: what is being made stands below. */
const shown = 3;

/** All food of the site that is on hold, a row each, with the reason: also what no deviation tells of. The newest reasons first. */
export function HeldFood({ night: { view, zone } }: { readonly night: Night }) {
  if (view.heldFood.length === 0) return null;
  const folded = view.heldFood.slice(shown);
  return (
    <Section title={`Food on hold: ${whole(view.heldFood.length)}`}>
      <Rows held={view.heldFood.slice(0, shown)} zone={zone} />
      {folded.length === 0 ? null : (
        <details>
          <summary>{whole(folded.length)} more on hold</summary>
          <Rows held={folded} zone={zone} />
        </details>
      )}
    </Section>
  );
}

function Rows({ held, zone }: { readonly held: readonly Held[]; readonly zone: string }) {
  return (
    <ul className="rows">
      {held.map((h) => (
        <li key={h.id}>
          <Link href={h.type === 'batch' ? paths.batch(h.id) : office.lot(h.id)} className="row">
            <OnHold />
            <span className="row-main">
              <strong>{h.name}</strong> {codeText(h.code)}, {amountText(h.left.amount, h.left.measure)}: {reasonsText(h)}
            </span>
            <span className="row-side">{dayTime(h.since, zone)}</span>
          </Link>
        </li>
      ))}
    </ul>
  );
}

/** Each reason once, with the lot that it came with where that is another. */
export const reasonsText = ({ id, concerns }: Held): string =>
  [...new Set(concerns.map((c) => `${c.from === id ? '' : `came with ${c.fromName}, `}${concernText(c)}`))].join('; ');
