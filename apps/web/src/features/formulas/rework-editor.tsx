import { Button, Section } from '../../ui';
import type { Choices } from './choices';
import { Figure, Pick, RowKeys } from '../../shared/drafts/fields';
import { changedAt } from '../../shared/drafts/lists';
import { blankRework, type Rework } from './text';

interface Props {
  readonly rework: Rework | null;
  readonly choices: Choices;
  readonly onChange: (rework: Rework | null) => void;
}

/** What of the house's own may be put back: from what, how much of the flour, how old, how often. */
export function ReworkEditor({ rework, choices, onChange }: Props) {
  return (
    <Section title="What may be put back (rework)">
      {rework === null ? (
        <>
          <p className="hint">
            This formula says nothing of rework: crumb, trim, old dough or stale bread that is put back is not held against it.
          </p>
          <div className="buttons">
            <Button onClick={() => onChange(blankRework)}>Say what may be put back</Button>
          </div>
        </>
      ) : (
        <Rule rework={rework} choices={choices} onChange={onChange} />
      )}
    </Section>
  );
}

function Rule({ rework, choices, onChange }: Props & { readonly rework: Rework }) {
  const { sources } = rework;
  const options = choices.materials.filter((m) => m.type === 'product' || m.type === 'intermediate');
  const change = (some: Partial<Rework>): void => onChange({ ...rework, ...some });
  return (
    <>
      {sources.length === 0 ? <p>Nothing may be put back.</p> : null}
      <table className="lines editing">
        <tbody>
          {sources.map((s, i) => (
            <tr key={i}>
              <td>
                <Pick
                  label={`May be put back ${i + 1}`}
                  hideLabel
                  value={s.material}
                  nothing="choose"
                  options={options}
                  onChange={(material) =>
                    change({ sources: changedAt(sources, i, { material, name: material === null ? '' : choices.nameOf(material) }) })
                  }
                />
              </td>
              <RowKeys what={`what may be put back ${i + 1}`} list={sources} at={i} onChange={(next) => change({ sources: next })} />
            </tr>
          ))}
        </tbody>
      </table>
      <div className="buttons">
        <Button onClick={() => change({ sources: [...sources, { material: null, name: '' }] })}>One more that may be put back</Button>
        <Button look="quiet" onClick={() => onChange(null)}>
          Say nothing of rework
        </Button>
      </div>
      <div className="small-fields">
        <Figure
          label="At most of the flour"
          unit="%"
          per={100}
          value={rework.maxFlourBp}
          onChange={(maxFlourBp) => change({ maxFlourBp })}
        />
        <Figure label="At most so old" unit="hours" value={rework.maxAgeHours} onChange={(maxAgeHours) => change({ maxAgeHours })} />
        <Figure label="The same food at most" unit="times" value={rework.maxTimes} onChange={(maxTimes) => change({ maxTimes })} />
      </div>
      <p className="hint">
        By weight, of the flour that is weighed in for this formula’s lines. Empty: no limit. Only what was made here may be put back. The
        age counts from when it was counted out, divided or ended; of a bin the oldest in it.
      </p>
    </>
  );
}
