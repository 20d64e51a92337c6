import { phrase } from '@bakehouse/records';
import type { DueView } from '@bakehouse/views';
import { howLong, limitText, wallTime, whole } from '../../shared/format';
import { paths } from '../../shared/night/paths';
import type { Night } from '../../shared/night/use-night';
import { readingDoubt } from '../../shared/reading-doubt';
import { Empty, Icon, LinkButton, RowLink, Section } from '../../ui';

/** What is to be read within five minutes: the first of it as the loudest thing of the page, the rest in rows, later ones folded away. */
export function DueNext({ night }: { readonly night: Night }) {
  const { view, now } = night;
  const due = view.due.filter((d) => d.from !== null && Date.parse(d.from) - Date.parse(now) < 5 * 60_000);
  const later = view.due.filter((d) => !due.includes(d));
  const [first, ...others] = due;
  const rows = (list: readonly DueView[]) => (
    <ul className="rows">
      {list.map((d) => (
        <DueRow key={`${d.subject} ${d.key}`} d={d} night={night} />
      ))}
    </ul>
  );
  return (
    <Section title="Due next">
      {first ? <First d={first} night={night} /> : <Empty>No reading is due in the next minutes.</Empty>}
      {others.length === 0 ? null : rows(others)}
      {later.length === 0 ? null : (
        <details>
          <summary>Later: {whole(later.length)}</summary>
          {rows(later)}
        </details>
      )}
    </Section>
  );
}

function First({ d, night: { now, zone } }: { readonly d: DueView; readonly night: Night }) {
  const late = d.from !== null && Date.parse(now) - Date.parse(d.from) >= 60_000;
  return (
    <div className={late ? 'due overdue' : 'due'}>
      <Icon name="probe" />
      <div className="due-what">
        <p className="due-name">
          {d.subjectName ?? ''}: {d.parameter}
        </p>
        <p className="faint">
          <span className={`class ${d.class}`}>{phrase(`class.${d.class}`)}</span> {limitText(d.limit)}
          {d.from === null ? '' : `, due ${wallTime(d.from, zone)}`}
          <Again again={d.again} zone={zone} />
        </p>
      </div>
      {late && d.from !== null ? (
        <p className="due-late">
          <b>{howLong(d.from, now)}</b> overdue
        </p>
      ) : null}
      <LinkButton to={paths.read(d.subjectType, d.subject, d.point)} look="go">
        <span className="unseen">{d.subjectName ?? ''}:</span> Read the {d.parameter}
      </LinkButton>
    </div>
  );
}

function DueRow({ d, night }: { readonly d: DueView; readonly night: Night }) {
  return (
    <li>
      <RowLink to={paths.read(d.subjectType, d.subject, d.point)}>
        <span className={`class ${d.class}`}>{phrase(`class.${d.class}`)}</span>
        <span className="row-main">
          <strong>{d.subjectName ?? ''}</strong> {d.parameter}, {limitText(d.limit)}
          <Again again={d.again} zone={night.zone} />
        </span>
        <span className="row-side">{d.from === null ? 'not yet' : wallTime(d.from, night.zone)}</span>
      </RowLink>
    </li>
  );
}

/** Why a reading is asked for once more. */
export function Again({ again, zone }: { readonly again: DueView['again']; readonly zone: string }) {
  if (again === null) return null;
  const doubt = readingDoubt(again.doubt, zone);
  return <> · {doubt === null ? phrase(`verdict.${again.verdict}`) : `${doubt}; read it again`}</>;
}
