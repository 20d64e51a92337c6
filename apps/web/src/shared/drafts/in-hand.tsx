import type { DraftList } from '@bakehouse/contracts';
import { Link } from 'wouter';
import { useTabletState } from '../tablet-context';
import { dayTime } from '../trace/words';
import { Empty, Section } from '../../ui';

interface Props {
  readonly drafts: DraftList;
  readonly to: (id: string) => string;
  /** What is said where there are none. */
  readonly none: string;
  /** What is said beside one that begins from nothing. */
  readonly fromNothing?: string;
}

/** Drafts that somebody is working on, with who saved them last. */
export function DraftsInHand({ drafts, to, none, fromNothing = '' }: Props) {
  const { site } = useTabletState();
  return (
    <Section title="In hand">
      {drafts.length === 0 ? <Empty>{none}</Empty> : null}
      <ul className="rows">
        {drafts.map((d) => (
          <li key={d.id}>
            <Link href={to(d.id)} className="row">
              <span className="row-main">
                <strong>{d.name === '' ? 'without a name yet' : d.name}</strong>
                {d.basedOn === null ? fromNothing : ''}
              </span>
              <span className="row-side">
                {d.by.name ?? 'somebody'}, {dayTime(d.at, site.zone)}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  );
}
