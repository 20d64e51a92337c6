import { phrase } from '@bakehouse/records';
import type { DeviationView } from '@bakehouse/views';
import { Link } from 'wouter';
import { TakenBack } from '../../shared/taken-back';
import { whenText } from '../../shared/format';
import { paths } from '../../shared/night/paths';
import type { Night } from '../../shared/night/use-night';
import { Section, StateWord } from '../../ui';

export function Deviations({
  title,
  list,
  night,
}: {
  readonly title: string;
  readonly list: readonly DeviationView[];
  readonly night: Night;
}) {
  if (list.length === 0) return null;
  return (
    <Section title={title}>
      <ul className="rows">
        {list.map((d) => (
          <DeviationRow key={d.id} d={d} night={night} />
        ))}
      </ul>
    </Section>
  );
}

export function DeviationRow({ d, night }: { readonly d: DeviationView; readonly night: Night }) {
  return (
    <li>
      <Link href={paths.deviation(d.id)} className="row">
        {d.state === 'holds' ? (
          <StateWord shape="gate" tone="bad">
            on hold
          </StateWord>
        ) : (
          <StateWord shape="ring" tone="calm">
            {d.actions.length > 0 ? 'answered' : 'noted'}
          </StateWord>
        )}
        <span className="row-main">
          <strong>{d.subjectName ?? ''}</strong> {phrase(`deviation.${d.type}`)}
          {d.summary === null ? '' : `: ${d.summary}`} <TakenBack of={d.takenBack} />
        </span>
        <span className="row-side">{whenText(d.at, night.now, night.zone)}</span>
      </Link>
    </li>
  );
}
