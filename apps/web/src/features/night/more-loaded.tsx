import type { RunView } from '@bakehouse/views';
import { Link } from 'wouter';
import { whole } from '../../shared/format';
import { paths } from '../../shared/night/paths';
import { Section, StateWord } from '../../ui';

/** In words, with its mark: more went into the oven than there was. */
export function MoreLoadedWord({ run: { loaded, pieces } }: { readonly run: RunView }) {
  return (
    <StateWord shape="diamond" tone="bad">
      {`${whole(loaded)} in the oven by the records, of ${whole(pieces)} that were made up`}
    </StateWord>
  );
}

/** Of these more went into an oven than were made up: two tablets loaded the same pieces, or a number is wrong. */
export function MoreLoaded({ runs }: { readonly runs: readonly RunView[] }) {
  if (runs.length === 0) return null;
  return (
    <Section title="It does not add up">
      <ul className="rows">
        {runs.map((r) => (
          <li key={r.id}>
            <Link href={paths.run(r.id)} className="row">
              <span className="row-main">
                <strong>{r.name}</strong>
              </span>
              <MoreLoadedWord run={r} />
              <span className="row-side">look</span>
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  );
}
