import { quantityText } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import {
  isOnHold,
  type BatchView,
  type DeviationView,
  type DueView,
  type LoadView,
  type MakeView,
  type ReadingView,
} from '@bakehouse/views';
import { Link } from 'wouter';
import { mass, howLong, limitText, wallTime, whole } from '../../shared/format';
import { Caution, Empty, LinkButton, Screen, Section, StateWord, VerdictMark } from '../../ui';
import { BatchState } from './batch-state';
import { FoundAfterRelease } from './found-since';
import { paths, subjectPath } from '../../shared/night/paths';
import { OnHold } from '../../shared/concerns';
import { readingDoubt } from '../../shared/reading-doubt';
import { useNight, type Night } from '../../shared/night/use-night';
import { judgedValue } from '../../ui/verdict-text';

/** Today's bake: what is due next on top, then everything in hand. */
export function Today() {
  const night = useNight();
  const { view } = night;
  const holding = view.deviations.filter((d) => d.state === 'holds');
  const open = view.deviations.filter((d) => d.state === 'open');
  return (
    <Screen
      title="Today’s bake"
      actions={
        <>
          <LinkButton to={paths.start} look="go">
            Start a mix
          </LinkButton>
          <LinkButton to={paths.loadNew}>Into the oven</LinkButton>
        </>
      }
    >
      <FoundAfterRelease night={night} />
      <Deviations title="On hold" list={holding} night={night} />
      <DueNext night={night} />
      <Section title="Mixes">
        {view.makes.length === 0 ? (
          <Empty>Nothing begun yet. “Start a mix” begins a dough, a preferment or a filling.</Empty>
        ) : (
          <ul className="cards">
            {view.makes.map((m) => (
              <MakeCard key={m.id} m={m} night={night} />
            ))}
          </ul>
        )}
      </Section>
      <Section title="Loads">
        {view.loads.length === 0 ? (
          <Empty>Nothing has been in the oven yet.</Empty>
        ) : (
          <ul className="cards">
            {view.loads.map((l) => (
              <LoadCard key={l.id} l={l} night={night} />
            ))}
          </ul>
        )}
      </Section>
      <Section title="Counted out">
        {view.batches.length === 0 ? (
          <Empty>Nothing counted out yet.</Empty>
        ) : (
          <ul className="cards">
            {view.batches.map((b) => (
              <BatchCard key={b.id} b={b} />
            ))}
          </ul>
        )}
      </Section>
      <Deviations title="Open deviations" list={open} night={night} />
      <div className="buttons">
        <LinkButton to={paths.report('site', night.state.site.id)}>Report a deviation</LinkButton>
        <LinkButton to={paths.cleanDown}>Cleaned down</LinkButton>
        <LinkButton to={paths.probeCheck}>Check a thermometer</LinkButton>
        <LinkButton to={paths.sheet}>The day’s sheet, to print</LinkButton>
      </div>
      <Caution />
    </Screen>
  );
}

function Deviations({ title, list, night }: { readonly title: string; readonly list: readonly DeviationView[]; readonly night: Night }) {
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

/** What is to be read within five minutes; the rest folded away. */
function DueNext({ night }: { readonly night: Night }) {
  const { view, now } = night;
  const due = view.due.filter((d) => d.from !== null && Date.parse(d.from) - Date.parse(now) < 5 * 60_000);
  const later = view.due.filter((d) => !due.includes(d));
  const rows = (list: readonly DueView[]) => (
    <ul className="rows">
      {list.map((d) => (
        <DueRow key={`${d.subject} ${d.key}`} d={d} night={night} />
      ))}
    </ul>
  );
  return (
    <Section title="Due next">
      {due.length === 0 ? <Empty>No reading is due in the next minutes.</Empty> : rows(due)}
      {later.length === 0 ? null : (
        <details>
          <summary>Later: {whole(later.length)}</summary>
          {rows(later)}
        </details>
      )}
    </Section>
  );
}

function DueRow({ d, night }: { readonly d: DueView; readonly night: Night }) {
  return (
    <li>
      <Link href={paths.read(d.subjectType, d.subject, d.point)} className="row">
        <span className={`class ${d.class}`}>{phrase(`class.${d.class}`)}</span>
        <span className="row-main">
          <strong>{d.subjectName ?? ''}</strong> {d.parameter}, {limitText(d.limit)}
          <Again again={d.again} zone={night.zone} />
        </span>
        <span className="row-side">{d.from === null ? 'not yet' : wallTime(d.from, night.zone)}</span>
      </Link>
    </li>
  );
}

/** Why a reading is asked for once more. */
export function Again({ again, zone }: { readonly again: DueView['again']; readonly zone: string }) {
  if (again === null) return null;
  const doubt = readingDoubt(again.doubt, zone);
  return <> · {doubt === null ? phrase(`verdict.${again.verdict}`) : `${doubt}; read it again`}</>;
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
          {d.summary === null ? '' : `: ${d.summary}`}
        </span>
        <span className="row-side">{wallTime(d.at, night.zone)}</span>
      </Link>
    </li>
  );
}

function MakeCard({ m, night }: { readonly m: MakeView; readonly night: Night }) {
  const stage = m.divided ? 'made up' : m.ended ? 'finished' : m.mixed ? 'mixed' : m.lines.length > 0 ? 'weighed in' : 'begun';
  const last = m.readings.at(-1);
  return (
    <li className="card">
      <Link href={paths.make(m.id)} className="card-link">
        <strong>{m.name}</strong>
        <span>
          {stage} · begun {wallTime(m.at, night.zone)} · {mass(m.inMg === 0 ? m.plannedMg : m.inMg)}
        </span>
      </Link>
      {isOnHold(m) ? <OnHold /> : null}
      {last ? <LastReading r={last} zone={night.zone} /> : null}
      {m.runs.length === 0 ? null : (
        <ul className="sub">
          {m.runs.map((r) => (
            <li key={r.id}>
              <Link href={subjectPath('run', r.id)}>
                {r.name}: {whole(r.loaded)} of {whole(r.pieces)} baked
              </Link>{' '}
              {isOnHold(r) ? <OnHold /> : null}
            </li>
          ))}
        </ul>
      )}
    </li>
  );
}

function LoadCard({ l, night }: { readonly l: LoadView; readonly night: Night }) {
  const last = l.readings.at(-1);
  return (
    <li className="card">
      <Link href={paths.load(l.id)} className="card-link">
        <strong>{l.lines.map((line) => `${line.name} × ${whole(line.pieces)}`).join(', ')}</strong>
        <span>
          {l.deckName ?? l.ovenName} · {l.now.in ? `in for ${howLong(l.now.since, night.now)}` : `out ${wallTime(l.now.outAt, night.zone)}`}
        </span>
      </Link>
      {l.lines.some((line) => line.onHold) ? <OnHold /> : null}
      {last ? (
        <span className="card-state">
          <LastReading r={last} zone={night.zone} />
          {last.figure === null ? '' : ` ${quantityText(last.figure, last.unit)}`}
        </span>
      ) : null}
    </li>
  );
}

function LastReading({ r, zone }: { readonly r: ReadingView; readonly zone: string }) {
  return <VerdictMark verdict={r.verdict} value={judgedValue(r.figure, r.unit, r.judgedBy)} doubt={readingDoubt(r.doubt, zone)} />;
}

function BatchCard({ b }: { readonly b: BatchView }) {
  return (
    <li className="card">
      <Link href={paths.batch(b.id)} className="card-link">
        <strong>
          {b.name} × {whole(b.pieces)}
        </strong>
        <span>
          {b.code}
          {b.rejects > 0 ? ` · ${whole(b.rejects)} rejected` : ''}
        </span>
      </Link>
      <BatchState b={b} />
    </li>
  );
}
