import { Section } from '../../ui';
import { typeChoices, type Choices } from './choices';
import { Figure, Pick, Words } from '../../shared/drafts/fields';
import type { FormulaWriting } from './text';

/** What it is called, what it makes, and how the dough is mixed. */
export function SettingsEditor({
  writing: { text, change, changeContent },
  choices,
}: {
  readonly writing: FormulaWriting;
  readonly choices: Choices;
}) {
  const { content } = text;
  const range = content.doughCelsius;
  const setRange = (end: 'min' | 'max', figure: string): void => {
    const next = { min: range?.min ?? '', max: range?.max ?? '', [end]: figure };
    changeContent({ doughCelsius: next.min === '' && next.max === '' ? null : next });
  };
  return (
    <Section title="What it is">
      <div className="small-fields">
        <Words label="Name" value={text.name} onChange={(name) => change({ name })} />
        <Pick
          label="Type"
          value={text.type}
          options={typeChoices}
          onChange={(type) => {
            const found = typeChoices.find((s) => s.value === type);
            if (found) change({ type: found.value });
          }}
        />
        <Pick
          label="What it makes"
          value={content.makes}
          nothing="choose"
          options={choices.materials.filter((m) => m.type === 'intermediate')}
          onChange={(makes) => changeContent({ makes })}
        />
        <Words label="Dough from" unit="°C" value={range?.min ?? ''} onChange={(figure) => setRange('min', figure.replace(',', '.'))} />
        <Words label="to" unit="°C" value={range?.max ?? ''} onChange={(figure) => setRange('max', figure.replace(',', '.'))} />
        <Words
          label="Friction factor expected"
          unit="°C"
          value={content.frictionCelsius ?? ''}
          onChange={(figure) => changeContent({ frictionCelsius: figure === '' ? null : figure.replace(',', '.') })}
        />
        <Figure label="Minutes slow" value={content.minutesSlow} onChange={(minutesSlow) => changeContent({ minutesSlow })} />
        <Figure label="Minutes fast" value={content.minutesFast} onChange={(minutesFast) => changeContent({ minutesFast })} />
        <Figure label="Keeps" unit="hours" value={content.lifeHours} onChange={(lifeHours) => changeContent({ lifeHours })} />
      </div>
    </Section>
  );
}
