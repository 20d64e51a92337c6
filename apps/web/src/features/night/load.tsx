import { quantityText } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { type LoadView } from '@bakehouse/views';
import { useState } from 'react';
import { Link } from 'wouter';
import { howLong, limitText, wallTime, whole } from '../../shared/format';
import { Button, Caution, For, LinkButton, RowLink, Screen, Section, Sheet } from '../../ui';
import { Readings } from './make';
import { CorrectIt } from './correct-it';
import { paths } from '../../shared/night/paths';
import { BackIn } from './reading-result';
import { useAct } from '../../shared/use-act';
import { TakenBack } from '../../shared/taken-back';
import { useNight } from '../../shared/night/use-night';
import { Again } from './due-next';
import { isTooEarly } from './too-early';
import { NotHere } from '../../shared/night/not-here';

/** One load: turned, taken out, its core read, back in. */
export function Load({ id }: { readonly id: string }) {
  const night = useNight();
  const { view, zone, now } = night;
  const load = view.loads.find((l) => l.id === id);
  const back = { to: paths.today, text: 'Today’s bake' };
  const { act, busy, trouble } = useAct();
  const [early, setEarly] = useState(false);
  if (!load) return <NotHere title="Load" back={back} what="load" />;
  const step = (kind: 'turned' | 'out' | 'out-again'): void => {
    void act({ kind: 'load-stepped', payload: { load: id, step: kind, minutes: null } });
  };
  const wasBack = load.steps.some((s) => s.step === 'back-in');
  const takeOut = (): void => {
    setEarly(false);
    step(wasBack ? 'out-again' : 'out');
  };
  const due = load.now.in ? load.now.due : null;
  return (
    <Screen
      title={load.lines.map((l) => `${l.name} × ${whole(l.pieces)}`).join(', ')}
      back={back}
      actions={
        load.now.in ? (
          <>
            <Button needs="record" look="go" disabled={busy} onClick={() => (isTooEarly(now, due) ? setEarly(true) : takeOut())}>
              Take out
            </Button>
            <Button needs="record" disabled={busy} onClick={() => step('turned')}>
              Turned
            </Button>
          </>
        ) : null
      }
    >
      {trouble}
      {early && due !== null ? <OutEarly due={due} busy={busy} onOut={takeOut} onClose={() => setEarly(false)} /> : null}
      <p className="faint">
        {load.deckName ?? load.ovenName}
        {load.celsius === null ? '' : `, ${quantityText(String(load.celsius), 'degC')}`}, in {wallTime(load.inAt, zone)}
        {load.now.in
          ? ` · in for ${howLong(load.now.since, now)}${load.now.due === null ? '' : `, out ${wallTime(load.now.due, zone)}`}`
          : ` · out ${wallTime(load.now.outAt, zone)}`}
      </p>
      <ToRead load={load} />
      <OnHold load={load} />
      <Readings make={load} night={night} />
      <ReadAgain load={load} />
      <SoFar load={load} zone={zone} />
      <Section title="Products">
        <ul className="rows">
          {load.lines.map((l) => (
            <li key={l.run}>
              <Link href={paths.run(l.run)} className="row">
                <span className="row-main">{l.name}</span>
                <For needs="record">
                  <span className="row-side">count out</span>
                </For>
              </Link>
            </li>
          ))}
        </ul>
      </Section>
      <div className="buttons">
        <LinkButton to={paths.report('load', id)}>Report a deviation</LinkButton>
        <CorrectIt entry={id} />
      </div>
      <Caution />
    </Screen>
  );
}

interface EarlyProps {
  readonly due: string;
  readonly busy: boolean;
  readonly onOut: () => void;
  readonly onClose: () => void;
}

/** A load that is due much later: most likely it is another one that came out. */
function OutEarly({ due, busy, onOut, onClose }: EarlyProps) {
  const { zone } = useNight();
  return (
    <Sheet title={`Not due before ${wallTime(due, zone)}: is it out?`} onClose={onClose}>
      <p>Nothing is recorded yet, and its time runs on. Look whether it is the load that you mean.</p>
      <div className="buttons">
        <Button look="go" onClick={onClose}>
          Not yet
        </Button>
        <Button disabled={busy} onClick={onOut}>
          It is so, take it out
        </Button>
      </div>
    </Sheet>
  );
}

function OnHold({ load }: { readonly load: LoadView }) {
  const open = useNight().view.deviations.filter((d) => d.subject === load.id && d.state === 'holds');
  if (open.length === 0) return null;
  return (
    <Section title="On hold">
      <ul className="rows">
        {open.map((d) => (
          <li key={d.id}>
            <Link href={paths.deviation(d.id)} className="row">
              <span className="row-main">
                {phrase(`deviation.${d.type}`)}: {d.summary} <TakenBack of={d.takenBack} />
              </span>
            </Link>
          </li>
        ))}
      </ul>
      {load.now.in ? null : (
        <For needs="record">
          <BackIn load={load.id} deviation={open[0]?.id ?? null} />
        </For>
      )}
    </Section>
  );
}

function ToRead({ load }: { readonly load: LoadView }) {
  const { view, zone } = useNight();
  const due = view.due.filter((d) => d.subject === load.id);
  if (due.length === 0) return null;
  return (
    <Section title="To read">
      <ul className="rows">
        {due.map((d) => (
          <li key={d.key}>
            <RowLink to={paths.read(d.subjectType, d.subject, d.point)}>
              <span className={`class ${d.class}`}>{phrase(`class.${d.class}`)}</span>
              <span className="row-main">
                {d.parameter}, {limitText(d.limit)}
                <Again again={d.again} zone={zone} />
              </span>
            </RowLink>
          </li>
        ))}
      </ul>
    </Section>
  );
}

function SoFar({ load, zone }: { readonly load: LoadView; readonly zone: string }) {
  return (
    <Section title="So far">
      <ul className="rows">
        <li className="row">
          <span className="row-main">in</span>
          <span className="row-side">{wallTime(load.inAt, zone)}</span>
        </li>
        {load.steps.map((s) => (
          <li key={`${s.step} ${s.at}`} className="row">
            <span className="row-main">
              {phrase(`loadStep.${s.step}`)}
              {s.minutes === null ? '' : `, ${s.minutes} min more`}
            </span>
            <span className="row-side">{wallTime(s.at, zone)}</span>
          </li>
        ))}
      </ul>
    </Section>
  );
}

/** A point that was answered can be read once more: after more time in the oven, or to be sure. */
function ReadAgain({ load }: { readonly load: LoadView }) {
  const points = [...new Map(load.readings.flatMap((r) => (r.point === null ? [] : [[r.point, r.parameter] as const]))).entries()];
  if (points.length === 0) return null;
  return (
    <div className="buttons">
      {points.map(([point, parameter]) => (
        <LinkButton key={point} to={paths.read('load', load.id, point)}>{`Read ${parameter} again`}</LinkButton>
      ))}
    </div>
  );
}
