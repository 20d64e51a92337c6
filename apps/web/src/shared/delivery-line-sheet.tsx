import { phrase, type Row } from '@bakehouse/records';
import { useState } from 'react';
import { arrivalMeasured, codeStates, hasUseBy, type DeliveryLine } from './delivery-line';
import { limitText } from './format';
import { useTabletState } from './tablet-context';
import { Scan } from './scan';
import { Button, Choice, Field, FigureKey, FigureKeys, NumberPad, Sheet } from '../ui';

interface Props {
  readonly line: DeliveryLine;
  readonly limit: Row<'controlPoint'>['content']['limit'] | undefined;
  readonly onDone: (line: DeliveryLine) => void;
  readonly onClose: () => void;
}

/** One thing that was found: how much, how warm, what stands on it. */
export function DeliveryLineSheet({ line, limit, onDone, onClose }: Props) {
  const { snapshot } = useTabletState();
  const asksUseBy = hasUseBy(snapshot, line.material);
  const [l, setL] = useState(line);
  const [at, setAt] = useState<'quantity' | 'temperature'>('quantity');
  const done = l.codeState !== 'on-it' || l.code.trim() !== '';
  return (
    <Sheet title={line.name} onClose={onClose}>
      <FigureKeys>
        <FigureKey
          name="How much"
          figure={l.quantity === '' ? '–' : `${l.quantity} ${l.unit}`}
          pressed={at === 'quantity'}
          onClick={() => setAt('quantity')}
        />
        <FigureKey
          name={`Temperature${limit ? `, ${limitText(limit)}` : ''}`}
          figure={l.temperature === '' ? '–' : `${l.temperature} °C`}
          pressed={at === 'temperature'}
          onClick={() => setAt('temperature')}
        />
      </FigureKeys>
      <NumberPad
        key={at}
        label={at === 'quantity' ? 'How much' : 'Temperature'}
        unit={at === 'quantity' ? l.unit : '°C'}
        negative={at === 'temperature'}
        value={l[at]}
        onChange={(v) => setL({ ...l, [at]: v })}
      />
      {at === 'quantity' ? (
        <Choice
          label="In"
          value={l.unit}
          onChange={(unit) => setL({ ...l, unit })}
          options={(['kg', 'g', 'l', 'piece'] as const).map((u) => ({ value: u, text: u === 'piece' ? 'pieces' : u }))}
        />
      ) : (
        <Choice
          label="Measured where"
          value={l.measured}
          onChange={(measured) => setL({ ...l, measured })}
          options={arrivalMeasured.options.map((p) => ({ value: p, text: phrase(`measured.${p}`) }))}
        />
      )}
      <Choice
        label="Its lot code"
        value={l.codeState}
        onChange={(codeState) => setL({ ...l, codeState })}
        options={codeStates.options.map((c) => ({ value: c, text: phrase(`codeState.${c}`) }))}
      />
      {l.codeState === 'on-it' ? (
        <Field label="The code on it" value={l.code} onChange={(code) => setL({ ...l, code })} maxLength={60} required />
      ) : null}
      {asksUseBy ? <UseBy value={l.useBy} onChange={(useBy) => setL({ ...l, useBy })} /> : null}
      <Scan onRead={(read) => setL({ ...l, ...read })} />
      <AsWritten line={l} withUseBy={!asksUseBy} onChange={setL} />
      <div className="buttons">
        <Button look="go" disabled={!done} onClick={() => onDone(l)}>
          Put it on the list
        </Button>
      </div>
    </Sheet>
  );
}

const UseBy = ({ value, onChange }: { readonly value: string; readonly onChange: (useBy: string) => void }) => (
  <Field
    label="Use by"
    type="date"
    value={value}
    onChange={onChange}
    hint={value === '' ? 'Read it off the pack; empty only where none is on it' : undefined}
  />
);

interface AsWrittenProps {
  readonly line: DeliveryLine;
  readonly withUseBy: boolean;
  readonly onChange: (line: DeliveryLine) => void;
}

function AsWritten({ line: l, withUseBy, onChange }: AsWrittenProps) {
  return (
    <details open={l.bestBefore !== '' || (withUseBy && l.useBy !== '')}>
      <summary>As written, and dates</summary>
      <Field
        label="As it is written, such as 3 × 1 kg"
        value={l.asWritten}
        onChange={(asWritten) => onChange({ ...l, asWritten })}
        maxLength={60}
      />
      <Field label="Best before" type="date" value={l.bestBefore} onChange={(bestBefore) => onChange({ ...l, bestBefore })} />
      {withUseBy ? <Field label="Use by" type="date" value={l.useBy} onChange={(useBy) => onChange({ ...l, useBy })} /> : null}
    </details>
  );
}
