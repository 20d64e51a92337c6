import { phrase } from '@bakehouse/records';
import { quantityText, unitText } from '@bakehouse/kernel';
import { doubtOn } from '@bakehouse/views';
import { limitText, wallTime } from '../../shared/format';
import { useNight } from '../../shared/night/use-night';
import { WhenWho } from '../../shared/night/when-who';
import { correctionReasons, ReasonField } from '../../shared/reason-field';
import { Button, Choice, Field, NumberPad, Sheet, StateWord } from '../../ui';
import { VerdictPreview } from './verdict-preview';
import { limitName } from './limit-name';
import { temperatures, useReading, type BeingRead, type ReadingOf, type ReadingProps } from './use-reading';
import '../../ui/styles/pads.css';

/** The pad for one control point, whatever it asks for; beside it what the figure would be judged as, while it is being typed. */
export function ReadingForm(props: ReadingProps) {
  const { was, of } = props;
  const { limit, holdSeconds, parameter } = of.point.content;
  const reading = useReading(props);
  return (
    <form
      className="reading"
      onSubmit={(event) => {
        event.preventDefault();
        reading.save(null);
      }}
    >
      <div className="pad-side">
        <p className="asked">
          <span>{limitName(of.point.content.class)}</span> <strong>{limitText(limit)}</strong>
        </p>
        {holdSeconds === null ? null : (
          <Field
            label={`Held for how many seconds? ${holdSeconds} or more`}
            value={reading.seconds}
            onChange={(v) => reading.setSeconds(v.replace(/\D/g, ''))}
          />
        )}
        {was ? (
          <ReasonField label="Why is it corrected?" reasons={correctionReasons} value={reading.reason} onChange={reading.setReason} />
        ) : null}
        {limit.type === 'yes' ? null : (
          <NumberPad
            label={parameter}
            unit={unitText(reading.unit)}
            value={reading.figure}
            onChange={reading.setFigure}
            negative={reading.isTemperature}
          />
        )}
        <RecordKeys reading={reading} yesOrNo={limit.type === 'yes'} />
        {reading.trouble}
        <ReadWith reading={reading} of={of} />
        <WhenWho value={reading.whenWho} onChange={reading.setWhenWho} />
      </div>
      <div className="reading-side">
        {limit.type === 'yes' ? null : <VerdictPreview of={of} reading={reading} />}
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
      </div>
      <WithWhich reading={reading} of={of} />
      <TooEarly reading={reading} dueFrom={props.dueFrom ?? null} />
    </form>
  );
}

/** One key as wide as the pad, which says what it records. It is not the filled one while the figure cannot be right. */
function RecordKeys({ reading, yesOrNo }: { readonly reading: BeingRead; readonly yesOrNo: boolean }) {
  const { given, busy, unit, preview } = reading;
  if (yesOrNo)
    return (
      <div className="buttons">
        <Button look="go" disabled={busy} onClick={() => reading.save(true)}>
          Yes
        </Button>
        <Button disabled={busy} onClick={() => reading.save(false)}>
          No
        </Button>
      </div>
    );
  const doubtful = preview?.ok === true && preview.outcome.verdict === 'not-believable';
  return (
    <div className="buttons main-key">
      <Button look={doubtful ? 'plain' : 'go'} submit disabled={busy || given === undefined}>
        Record {given === undefined ? '' : quantityText(given, unit)}
      </Button>
    </div>
  );
}

/** The instruments that fit, as keys; one that cannot be trusted says so. Nothing is chosen before somebody, or what was used last, says which. */
function ReadWith({ reading, of }: { readonly reading: BeingRead; readonly of: ReadingOf }) {
  const { lookup, now } = useNight();
  const { instruments, instrument, isChosen, setInstrument, doubt, unit } = reading;
  if (instruments.length === 0) return null;
  const off = (id: string): boolean => doubtOn(lookup, { instrument: id, class: of.point.content.class, unit, at: now }) !== null;
  return (
    <>
      <Choice
        label="Read with"
        value={isChosen || !reading.toAsk ? (instrument ?? '') : null}
        onChange={(id) => setInstrument(id === '' ? null : id)}
        options={[
          ...instruments.map((i) => ({ value: i.id, text: off(i.id) ? `${i.name}, to be confirmed` : i.name })),
          { value: '', text: 'not said' },
        ]}
      />
      {doubt === null ? null : <StateWord shape="diamond" tone="ask">{`${doubt}; choose another`}</StateWord>}
    </>
  );
}

/** At a critical point a reading names what it was read with, or somebody says that they do not say. */
function WithWhich({ reading, of }: { readonly reading: BeingRead; readonly of: ReadingOf }) {
  const { choosing, setChoosing, toAsk, save } = reading;
  if (choosing === undefined) return null;
  return (
    <Sheet title="Read with which?" onClose={() => setChoosing(undefined)}>
      <ReadWith reading={reading} of={of} />
      <div className="buttons">
        <Button
          look="go"
          disabled={toAsk}
          onClick={() => {
            setChoosing(undefined);
            save(choosing);
          }}
        >
          Record it
        </Button>
      </div>
    </Sheet>
  );
}

/** A loaf that has hardly gone in has no core to read: most likely it is the wrong load. */
function TooEarly({ reading, dueFrom }: { readonly reading: BeingRead; readonly dueFrom: string | null }) {
  const { zone } = useNight();
  const { asking, setAsking, record, busy } = reading;
  if (asking === undefined || dueFrom === null) return null;
  return (
    <Sheet title={`Not due before ${wallTime(dueFrom, zone)}: record it now?`} onClose={() => setAsking(undefined)}>
      <p>Nothing is recorded yet. Look whether it is the one that you mean.</p>
      <div className="buttons">
        <Button look="go" onClick={() => setAsking(undefined)}>
          Not yet
        </Button>
        <Button disabled={busy} onClick={() => void record(asking)}>
          It is so, record it now
        </Button>
      </div>
    </Sheet>
  );
}
