import { leavenOf, waterFor, type Leaven, type RecentMix, type Row, type WaterFor } from '@bakehouse/records';
import { convertExact } from '@bakehouse/kernel';
import { ice } from '@bakehouse/sums';
import { useState } from 'react';
import { Figure, Pick } from '../../shared/drafts/fields';
import { stationsOf } from '../../shared/in-force';
import { mixesOf, typeFrom } from '../../shared/mixes-of';
import { useTabletState } from '../../shared/tablet-context';
import { Choice, Notice, Refusal, Section } from '../../ui';

type Version = Row<'formulaVersion'>;
type Unit = 'degC' | 'degF';
interface Conditions {
  readonly mixer: string | null;
  readonly unit: Unit;
  readonly flour: number | null;
  readonly room: number | null;
  readonly tap: number | null;
  readonly leaven: number | null;
  readonly wanted: number | null;
  readonly dough: number | null;
  readonly waterLine: string | null;
}

/** The water temperature for this formula, from what this mixer did to it before; and ice where the tap is too warm. Needs no network. */
export function WaterForDough({ version: { formula, content } }: { readonly version: Version }) {
  const { snapshot } = useTabletState();
  const mixers = stationsOf(snapshot);
  const liquid = content.lines.filter((l) => !l.flour && l.madeBy === null).sort((a, b) => b.mg - a.mg);
  const [conditions, setConditions] = useState<Conditions>({
    mixer: mixers[0]?.id ?? null,
    unit: 'degC',
    flour: null,
    room: null,
    tap: null,
    leaven: null,
    wanted: null,
    dough: null,
    waterLine: liquid[0]?.material ?? null,
  });
  const change = (to: Partial<Conditions>): void => setConditions((before) => ({ ...before, ...to }));
  const has = leavenOf(content, typeFrom(snapshot));
  const degrees = conditions.unit === 'degC' ? '°C' : '°F';
  const temperature = (label: string, key: 'flour' | 'room' | 'tap' | 'leaven' | 'wanted') => (
    <Figure
      key={`${key} ${conditions.unit}`}
      label={label}
      unit={degrees}
      per={1000}
      value={conditions[key] === null ? null : Math.round(conditions[key] * 1000)}
      onChange={(thousandths) => change({ [key]: thousandths === null ? null : thousandths / 1000 })}
    />
  );
  return (
    <Section title="Water temperature">
      <Choice
        label="In"
        value={conditions.unit}
        options={[
          { value: 'degC', text: '°C' },
          { value: 'degF', text: '°F' },
        ]}
        onChange={(unit) => change({ unit, flour: null, room: null, tap: null, leaven: null, wanted: null })}
      />
      <div className="small-fields">
        <Pick
          label="Mixer"
          value={conditions.mixer}
          nothing="none"
          options={mixers.map((m) => ({ value: m.id, text: m.name }))}
          onChange={(mixer) => change({ mixer })}
        />
        {temperature('Flour', 'flour')}
        {temperature('Room', 'room')}
        {has === null ? null : temperature(`Leaven: ${has.name}`, 'leaven')}
        {temperature('Water from the tap', 'tap')}
        {temperature(`Dough wanted${content.doughCelsius ? ', if not the middle' : ''}`, 'wanted')}
        <Figure label="Dough, if not as written" unit="g" per={1000} value={conditions.dough} onChange={(dough) => change({ dough })} />
        <Pick
          label="Which line is the water"
          value={conditions.waterLine}
          options={liquid.map((l) => ({ value: l.material, text: l.name }))}
          onChange={(waterLine) => change({ waterLine })}
        />
      </div>
      <Answer content={content} has={has} mixes={mixesOf(snapshot, formula, conditions.mixer)} conditions={conditions} />
    </Section>
  );
}

interface AnswerProps {
  readonly content: Version['content'];
  readonly mixes: readonly RecentMix[];
  readonly conditions: Conditions;
  readonly has: Leaven | null;
}

function Answer({ content, mixes, conditions, has }: AnswerProps) {
  const { unit, flour, room, leaven, wanted, dough } = conditions;
  if (flour === null || room === null) return <p className="hint">Enter the flour and room temperatures to see the water temperature.</p>;
  if (dough !== null && dough <= 0) return <p className="hint">Dough weighs more than nothing.</p>;
  const answer = waterFor({
    content,
    mixes,
    unit,
    flour,
    room,
    wanted: wanted ?? undefined,
    leaven: leaven ?? undefined,
    has,
    grams: dough === null ? undefined : String(dough / 1000),
  });
  if (!answer.ok) return <Refusal refused={answer} />;
  const { friction, water, missing } = answer.value;
  return (
    <>
      {water ? <WaterSaid water={water} /> : <Notice tone="ask" title={missing ?? ''} />}
      <p>
        <strong>Friction factor:</strong> {friction.celsius === null ? 'not known' : frictionText(friction)}. {friction.says}{' '}
        {friction.others.length === 0 ? '' : `${friction.others.length} of other minutes or another size are left out. `}
        Counted are the mixes that stand on this device.
      </p>
      {water ? <IceNeeded content={content} conditions={conditions} celsius={water.celsius} /> : null}
    </>
  );
}

const frictionText = ({ celsius, leastCelsius, maxCelsius }: WaterFor['friction']): string =>
  `${tenths(celsius ?? 0)} °C (${tenths(((celsius ?? 0) * 9) / 5)} °F) of difference${leastCelsius === null || maxCelsius === null || leastCelsius === maxCelsius ? '' : `, from ${tenths(leastCelsius)} to ${tenths(maxCelsius)} °C`}`;

const tenths = (n: number): string => (Math.round(n * 10) / 10).toFixed(1).replace('-', '−');

function WaterSaid({ water }: { readonly water: NonNullable<WaterFor['water']> }) {
  return (
    <>
      <p className="sum">
        Water of {tenths(water.celsius)} °C, that is {tenths(water.fahrenheit)} °F
      </p>
      {water.reason === null ? null : (
        <Notice tone="ask" title="No water is as warm as that">
          <p>{water.reason}</p>
        </Notice>
      )}
      <p>{water.explanation}</p>
      <p className="faint">
        {[water.source, ...(water.validRange === null ? [] : [`Holds for ${water.validRange}`]), ...water.cautions.map(withoutStop)].join(
          '. ',
        )}
        .
      </p>
    </>
  );
}

const withoutStop = (sentence: string): string => sentence.replace(/\.$/, '');

/** Ice in place of water, where the tap gives it warmer than it must be. */
function IceNeeded({ content, conditions, celsius }: Pick<AnswerProps, 'content' | 'conditions'> & { readonly celsius: number }) {
  const line = content.lines.find((l) => l.material === conditions.waterLine && !l.flour);
  if (conditions.tap === null) return <p className="hint">Enter the tap water’s temperature to see how much ice it needs.</p>;
  if (!line) return null;
  const whole = content.lines.reduce((mg, l) => mg + l.mg, 0);
  const mg = conditions.dough === null ? line.mg : (line.mg / whole) * conditions.dough;
  const tapCelsius = convertExact(String(conditions.tap), conditions.unit, 'degC').toDecimalPlaces(3).toNumber();
  const answer = ice.calculate({ waterKilograms: mg / 1_000_000, tapCelsius, wantedCelsius: celsius, way: 'replacing' });
  if (!answer.ok) return <Refusal refused={answer} />;
  const { iceKilograms, waterKilograms, reason, explanation, source, cautions } = answer.value;
  return (
    <>
      <p className="sum">
        {iceKilograms === null
          ? 'Ice alone cannot do it'
          : iceKilograms === 0
            ? 'No ice'
            : `${kilograms(iceKilograms)} of ice in ${kilograms(waterKilograms ?? 0)} of tap water`}
      </p>
      <p>{reason ?? explanation}</p>
      <p className="faint">{[source, ...cautions.map(withoutStop)].join('. ')}.</p>
    </>
  );
}

const kilograms = (kg: number): string => `${kg.toFixed(3)} kg`;
