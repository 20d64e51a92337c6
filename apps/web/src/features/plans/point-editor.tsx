import { phrase, pointClass, pointFrequency, pointMeasured, pointIfNotMonitored, pointIfOutside, pointStep } from '@bakehouse/records';
import { Pick, Words } from '../../shared/drafts/fields';
import { Button } from '../../ui';
import { LimitEditor } from './limit-editor';
import { OnlyFor } from './only-for';
import type { PointText } from './text';

interface Props {
  readonly point: PointText;
  readonly onChange: (to: Partial<PointText>) => void;
  readonly onCopy: () => void;
  readonly onTakeOut: () => void;
}

const classes = pointClass.options.map((value) => ({ value, text: phrase(`class.${value}`) }));
const steps = pointStep.options.map((value) => ({ value, text: phrase(`pointStep.${value}`) }));
const measures = pointMeasured.options.map((value) => ({ value, text: phrase(`measured.${value}`) }));
const frequencies = pointFrequency.options.map((value) => ({ value, text: phrase(`frequency.${value}`) }));
const misses = pointIfNotMonitored.options.map((value) => ({ value, text: phrase(`ifNotMonitored.${value}`) }));
const outsides = pointIfOutside.options.map((value) => ({ value, text: phrase(`ifOutside.${value}`) }));

/** One control point: what is measured where, against which limit, how often, and what is done where it is not monitored or not met. */
export function PointEditor({ point: p, onChange, onCopy, onTakeOut }: Props) {
  return (
    <fieldset className="card editing-card">
      <legend>{p.name === '' ? 'A point without a name yet' : p.name}</legend>
      <div className="small-fields">
        <Words label="Name" value={p.name} onChange={(name) => onChange({ name })} />
        <Chosen label="Class" value={p.class} options={classes} onChange={(chosen) => onChange({ class: chosen })} />
        <Chosen label="Step" value={p.step} options={steps} onChange={(step) => onChange({ step })} />
        <Words label="What is measured" value={p.parameter} onChange={(parameter) => onChange({ parameter })} />
        <Chosen label="Measured where" value={p.measured} options={measures} onChange={(measured) => onChange({ measured })} />
        <Chosen label="How often" value={p.frequency} options={frequencies} onChange={(frequency) => onChange({ frequency })} />
      </div>
      <OnlyFor point={p} onChange={onChange} />
      <LimitEditor limit={p.limit} onChange={(limit) => onChange({ limit })} />
      <div className="small-fields">
        <Words
          label="Held for, where it must be held"
          value={p.holdSeconds ?? ''}
          unit="s"
          onChange={(typed) => onChange({ holdSeconds: typed === '' ? null : typed })}
        />
        <Chosen
          label="If not monitored"
          value={p.ifNotMonitored}
          options={misses}
          onChange={(ifNotMonitored) => onChange({ ifNotMonitored })}
        />
        <Chosen label="If outside" value={p.ifOutside} options={outsides} onChange={(ifOutside) => onChange({ ifOutside })} />
      </div>
      <div className="long-fields">
        <Words label="Hazard" value={p.hazard} onChange={(hazard) => onChange({ hazard })} most={300} />
        <Words
          label="Corrective action"
          value={p.correctiveAction}
          onChange={(correctiveAction) => onChange({ correctiveAction })}
          most={500}
        />
        <Words label="Basis" value={p.basis} onChange={(basis) => onChange({ basis })} most={500} />
        <ValidatedBy point={p} onChange={onChange} />
      </div>
      <div className="buttons">
        <Button look="quiet" label={`Copy ${p.name}`} onClick={onCopy}>
          Copy
        </Button>
        <Button look="quiet" label={`Take out ${p.name}`} onClick={onTakeOut}>
          Take out
        </Button>
      </div>
    </fieldset>
  );
}

/** Who validated the limit and when; both, or neither where nobody did. */
function ValidatedBy({ point: { validated }, onChange }: Pick<Props, 'point' | 'onChange'>) {
  const { by, on } = validated ?? { by: '', on: '' };
  const set = (to: { readonly by: string; readonly on: string }): void =>
    onChange({ validated: to.by.trim() === '' && to.on === '' ? null : to });
  return (
    <>
      <Words
        label="Who validated the limit on that basis (role or body); nothing where nobody did"
        value={by}
        onChange={(typed) => set({ by: typed, on })}
        most={200}
      />
      <Words label="Validated on" type="date" value={on} onChange={(typed) => set({ by, on: typed })} />
    </>
  );
}

interface ChosenProps<V extends string> {
  readonly label: string;
  readonly value: V;
  readonly options: readonly { readonly value: V; readonly text: string }[];
  readonly onChange: (value: V) => void;
}

/** One of a few that are all known. */
function Chosen<V extends string>({ label, value, options, onChange }: ChosenProps<V>) {
  return (
    <Pick
      label={label}
      value={value}
      options={options}
      onChange={(chosen) => {
        const found = options.find((o) => o.value === chosen);
        if (found) onChange(found.value);
      }}
    />
  );
}
