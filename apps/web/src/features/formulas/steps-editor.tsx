import { Section } from '../../ui';
import { speedChoices, stepChoices } from './choices';
import { Figure, Pick, RowKeys, Words } from '../../shared/drafts/fields';
import { changedAt } from '../../shared/drafts/lists';
import { newStep, type Step } from './text';

/** The steps in their order, with minutes and the longest that each may take. */
export function StepsEditor({ steps, onChange }: { readonly steps: readonly Step[]; readonly onChange: (steps: Step[]) => void }) {
  return (
    <Section title="Steps">
      {steps.length === 0 ? null : (
        <table className="lines editing">
          <thead>
            <tr>
              <th scope="col">Step</th>
              <th scope="col">Called</th>
              <th scope="col">Minutes</th>
              <th scope="col">At most</th>
              <th scope="col">Speed</th>
              <th scope="col">
                <span className="unseen">Move or take out</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {steps.map((s, i) => (
              <StepRow key={s.key} steps={steps} at={i} step={s} onChange={onChange} />
            ))}
          </tbody>
        </table>
      )}
      <Pick
        label="One more step"
        value={null}
        nothing="choose a step"
        options={stepChoices}
        onChange={(type) => {
          if (type !== null) onChange([...steps, newStep(type, `${type.charAt(0).toUpperCase()}${type.slice(1)}`, steps)]);
        }}
      />
    </Section>
  );
}

interface RowProps {
  readonly steps: readonly Step[];
  readonly at: number;
  readonly step: Step;
  readonly onChange: (steps: Step[]) => void;
}

function StepRow({ steps, at: i, step: s, onChange }: RowProps) {
  return (
    <tr>
      <td>{s.type}</td>
      <td>
        <Words label={`Step ${i + 1} is called`} hideLabel value={s.name} onChange={(name) => onChange(changedAt(steps, i, { name }))} />
      </td>
      <td>
        <Figure
          label={`Minutes of step ${i + 1}`}
          hideLabel
          value={s.minutes}
          onChange={(minutes) => onChange(changedAt(steps, i, { minutes }))}
        />
      </td>
      <td>
        <Figure
          label={`Most minutes of step ${i + 1}`}
          hideLabel
          value={s.maxMinutes}
          onChange={(maxMinutes) => onChange(changedAt(steps, i, { maxMinutes }))}
        />
      </td>
      <td>
        <Pick
          label={`Speed of step ${i + 1}`}
          hideLabel
          value={s.speed}
          nothing="–"
          options={speedChoices}
          onChange={(speed) => onChange(changedAt(steps, i, { speed }))}
        />
      </td>
      <RowKeys what={`step ${i + 1}`} list={steps} at={i} onChange={onChange} />
    </tr>
  );
}
