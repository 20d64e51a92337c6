import { grouped } from '@bakehouse/kernel';
import { concernText } from '@bakehouse/records';
import { foundSinceRelease, type FoundSince } from '@bakehouse/views';
import { Link } from 'wouter';
import { whole } from '../../shared/format';
import { paths } from '../../shared/night/paths';
import type { Night } from '../../shared/night/use-night';
import { Notice } from '../../ui';

/** Released batches, of whichever day, that something speaks against since. They stay on top until somebody has decided. */
export function FoundAfterRelease({ night: { lookup } }: { readonly night: Night }) {
  const found = foundSinceRelease(lookup);
  if (found.length === 0) return null;
  return (
    <Notice tone="bad" title={titleOf(found)}>
      {[...grouped(found, (b) => `${b.name}: ${findingsText(b)}`).values()].map((same) => (
        <Same key={same[0]?.id} batches={same} />
      ))}
    </Notice>
  );
}

const titleOf = (found: readonly FoundSince[]): string =>
  [
    `Found after release: ${whole(found.length)}.`,
    ...(found.some((b) => b.onSale) ? ['Take it off the counter.'] : []),
    ...(found.some((b) => b.mayHaveLeft) ? ['It may have left already.'] : []),
  ].join(' ');

/** Batches of one product about which the same was found: each by itself, or one line that unfolds, so that a case of weeks does not push away the night. */
function Same({ batches }: { readonly batches: readonly FoundSince[] }) {
  const [first] = batches;
  const rows = (
    <ul className="rows">
      {batches.map((b) => (
        <Found key={b.id} b={b} />
      ))}
    </ul>
  );
  if (!first || batches.length < 3) return rows;
  return (
    <details>
      <summary>
        {first.name}, {whole(batches.length)} batches: {findingsText(first)}
      </summary>
      {rows}
    </details>
  );
}

function Found({ b }: { readonly b: FoundSince }) {
  return (
    <li>
      <Link href={paths.batch(b.id)} className="row">
        <span className="row-main">
          <strong>{b.name}</strong> {b.code}: {findingsText(b)}
        </span>
        <span>{hereText(b)}</span>
        <span className="row-side">decide</span>
      </Link>
    </li>
  );
}

/** How much of it is here, and that it has to come off the counter. */
function hereText({ here, onSale }: FoundSince): string {
  const many = here === null ? 'nobody knows how many here' : here <= 0 ? 'none left here by the records' : `${whole(here)} here`;
  return onSale ? `${many}: take them off the counter` : many;
}

const findingsText = ({ findings }: FoundSince): string =>
  [...new Set(findings.map(({ code, what, part }) => concernText({ type: code, what, part })))].join('; ');
