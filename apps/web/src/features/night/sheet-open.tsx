import { official } from '@bakehouse/records';
import { TakenBack } from '../../shared/taken-back';
import { Empty, Section } from '../../ui';
import { dayTime } from '../../shared/trace/words';
import type { Night } from '../../shared/night/use-night';

interface Props {
  readonly night: Night;
  /** Those that the paper shows already. */
  readonly besides: readonly string[];
  readonly title: string;
}

/** The deviations that are open by this tablet's records, of whichever day. */
export function OpenDeviations({ night: { view, zone, state }, besides, title }: Props) {
  const site = state.site.name;
  const open = view.deviations.filter((d) => !besides.includes(d.id));
  return (
    <Section title={title}>
      {open.length === 0 ? (
        <Empty>None.</Empty>
      ) : (
        <ul>
          {open.map((d) => (
            <li key={d.id}>
              {dayTime(d.at, zone)} {d.subjectName ?? site}: {official(`deviation.${d.type}`)}, {d.summary}
              {d.actions.length === 0 ? '' : `; ${d.actions.map((a) => official(`action.${a.type}`)).join(', ')}`}{' '}
              <TakenBack of={d.takenBack} />
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}
