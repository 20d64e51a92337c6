import { payloadOf, phrase, pointMeasured, type Judged, type Row } from '@bakehouse/records';
import { quantityText, unitText } from '@bakehouse/kernel';
import { doubtOn } from '@bakehouse/views';
import { useState } from 'react';
import { Button, Choice, Field, figureOf, NumberPad, StateWord } from '../../ui';
import { readingDoubt } from '../../shared/reading-doubt';
import type { useTabletState } from '../../shared/tablet-context';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';

export interface ReadingOf {
  readonly subjectType: Row<'reading'>['subjectType'];
  readonly subject: string;
  readonly point: Row<'controlPoint'>;
}
/** What a correction begins with. */
export interface WasRead {
  readonly entry: string;
  readonly figure: string | null;
  readonly instrument: string | null;
  readonly seconds: number | null;
  readonly at: Date;
  readonly doneBy: string | null;
}

interface Props {
  readonly of: ReadingOf;
  readonly was?: WasRead;
  readonly onRecorded: (entry: string, judged: Judged, figure: string) => void;
}

type Measured = Row<'reading'>['measured'];
const temperatures = pointMeasured.extract(['core', 'surface', 'between-packs', 'air', 'liquid', 'dough']).options;

/** What is read for one control point, and its recording; a correction begins with what was read. */
function useReading({ of: { subjectType, subject, point }, was, onRecorded }: Props) {
  const { limit, measured: askedAt, holdSeconds, parameter } = point.content;
  const { lookup, zone, now, state } = useNight();
  const { snapshot, recent } = state;
  const out = new Set(snapshot.instrumentOut.map((o) => o.instrument));
  const isTemperature = limit.type === 'range' && (limit.unit === 'degC' || limit.unit === 'degF' || limit.unit === 'K');
  const instruments = isTemperature ? snapshot.instrument.filter((i) => !out.has(i.id) && i.unit === 'degC') : [];
  const usedLast = lastInstrument(recent);
  const [instrument, setInstrument] = useState<string>(
    was ? (was.instrument ?? '') : (instruments.find((i) => i.id === usedLast)?.id ?? ''),
  );
  const [figure, setFigure] = useState(was?.figure ?? '');
  const [seconds, setSeconds] = useState(was?.seconds === null || was === undefined ? '' : String(was.seconds));
  const [measured, setMeasured] = useState<Measured>(askedAt);
  const [whenWho, setWhenWho] = useState<WhenAndWho>(was ? { at: was.at, ...(was.doneBy === null ? {} : { doneBy: was.doneBy }) } : {});
  const [reason, setReason] = useState('');
  const { act, busy, trouble } = useAct();
  const unit = limit.type === 'range' ? limit.unit : 'min';
  const at = whenWho.at?.toISOString() ?? now;
  const readWith = { instrument: instrument === '' ? null : instrument, class: point.content.class, unit, at };
  const doubt = readingDoubt(doubtOn(lookup, readWith), zone);
  const given = figureOf(figure);
  const save = async (yes: boolean | null): Promise<void> => {
    if (yes === null && given === undefined) return;
    const done = await act({
      kind: 'reading-taken',
      ...whenWho,
      ...(was ? { corrects: was.entry, words: { reason } } : {}),
      payload: {
        subjectType,
        subject,
        point: point.id,
        measured,
        parameter,
        instrument: instrument === '' ? null : instrument,
        value: yes === null && given !== undefined ? { figure: given, unit } : null,
        yes,
        seconds: holdSeconds === null || seconds === '' ? null : Number(seconds),
      },
    });
    if (done) onRecorded(done.id, done.outcome, yes === null ? quantityText(given ?? '', unit) : yes ? 'yes' : 'no');
  };
  return {
    ...{ figure, setFigure, given, unit, isTemperature, instrument, setInstrument, instruments, doubt, seconds, setSeconds },
    ...{ measured, setMeasured, whenWho, setWhenWho, reason, setReason, save, busy, trouble },
  };
}

/** The pad for one control point, whatever it asks for. */
export function ReadingForm(props: Props) {
  const { was } = props;
  const { limit, holdSeconds, parameter } = props.of.point.content;
  const reading = useReading(props);
  return (
    <form
      className="reading"
      onSubmit={(event) => {
        event.preventDefault();
        void reading.save(null);
      }}
    >
      {limit.type === 'yes' ? null : (
        <NumberPad
          label={parameter}
          unit={unitText(reading.unit)}
          value={reading.figure}
          onChange={reading.setFigure}
          negative={reading.isTemperature}
        />
      )}
      <div className="reading-side">
        {reading.instruments.length === 0 ? null : (
          <Choice
            label="Read with"
            value={reading.instrument}
            onChange={reading.setInstrument}
            options={[...reading.instruments.map((i) => ({ value: i.id, text: i.name })), { value: '', text: 'not said' }]}
          />
        )}
        {reading.doubt === null ? null : <StateWord shape="diamond" tone="ask">{`${reading.doubt}; choose another`}</StateWord>}
        {reading.isTemperature ? (
          <details>
            <summary>Measured somewhere else than asked</summary>
            <Choice
              label="Where"
              value={reading.measured}
              onChange={reading.setMeasured}
              options={temperatures.map((m) => ({ value: m, text: phrase(`measured.${m}`) }))}
            />
          </details>
        ) : null}
        {holdSeconds === null ? null : (
          <Field
            label={`Held for how many seconds? ${holdSeconds} or more`}
            value={reading.seconds}
            onChange={(v) => reading.setSeconds(v.replace(/\D/g, ''))}
          />
        )}
        {was ? <Field label="Why is it corrected?" value={reading.reason} onChange={reading.setReason} required /> : null}
        <WhenWho value={reading.whenWho} onChange={reading.setWhenWho} />
        {reading.trouble}
        {limit.type === 'yes' ? (
          <div className="buttons">
            <Button look="go" disabled={reading.busy} onClick={() => void reading.save(true)}>
              Yes
            </Button>
            <Button disabled={reading.busy} onClick={() => void reading.save(false)}>
              No
            </Button>
          </div>
        ) : (
          <Button look="go" submit disabled={reading.busy || reading.given === undefined}>
            Record {reading.given === undefined ? '' : quantityText(reading.given, reading.unit)}
          </Button>
        )}
      </div>
    </form>
  );
}

function lastInstrument(recent: ReturnType<typeof useTabletState>['recent']): string | undefined {
  for (const { entry } of recent) {
    const used = entry['kind'] === 'reading-taken' ? payloadOf('reading-taken', entry['payload'])?.instrument : undefined;
    if (typeof used === 'string') return used;
  }
  return undefined;
}
