import { grouped, inOrder } from '@bakehouse/kernel';
import { phrase, type Finding } from '@bakehouse/records';
import { batchView, type BatchView } from '@bakehouse/views';
import { Link } from 'wouter';
import { whole } from '../../shared/format';
import { paths } from '../../shared/night/paths';
import type { Night } from '../../shared/night/use-night';
import { Notice } from '../../ui';

/** Released batches, of whichever day, that something speaks against since. They stay on top until somebody has decided. */
export function FoundAfterRelease({ night: { lookup } }: { readonly night: Night }) {
  const found = inOrder(lookup.snapshot.batch)
    .map((b) => batchView(lookup, b))
    .filter(({ release }) => release.state === 'released' && release.since.length > 0);
  if (found.length === 0) return null;
  return (
    <Notice tone="bad" title={`Found after release: ${whole(found.length)}. It may have left already.`}>
      {[...grouped(found, (b) => `${b.name}: ${findingsText(b)}`).values()].map((same) => (
        <Same key={same[0]?.id} batches={same} />
      ))}
    </Notice>
  );
}

/** Batches of one product about which the same was found: each by itself, or one line that unfolds, so that a case of weeks does not push away the night. */
function Same({ batches }: { readonly batches: readonly BatchView[] }) {
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

function Found({ b }: { readonly b: BatchView }) {
  return (
    <li>
      <Link href={paths.batch(b.id)} className="row">
        <span className="row-main">
          <strong>
            {b.name} × {whole(b.pieces)}
          </strong>{' '}
          {b.code}: {findingsText(b)}
        </span>
        <span className="row-side">decide</span>
      </Link>
    </li>
  );
}

const findingsText = ({ release }: BatchView): string =>
  release.state === 'released' ? [...new Set(release.since.map(findingText))].join('; ') : '';

/** What was found, in words. */
export const findingText = ({ code, what }: Finding): string => `${phrase(`finding.${code}`)}${what === null ? '' : `: ${what}`}`;
