import { phrase, type Row } from '@bakehouse/records';
import { type StageView } from '@bakehouse/views';
import { useState } from 'react';
import { howLong, wallTime } from '../../shared/format';
import { Button, Choice, For, Sheet } from '../../ui';
import { placesOf } from '../../shared/in-force';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';

type Step = Row<'stage'>['step'];
type Type = 'make' | 'run' | 'load';
const into: readonly (readonly [Step, readonly Row<'place'>['type'][]])[] = [
  ['prove', ['prover']],
  ['retard', ['retarder']],
  ['cool', ['chiller', 'fridge']],
  ['freeze', ['freezer']],
  ['rest', []],
];

/** What the keys into and out of each step say. */
const passing: Readonly<Record<Step, { readonly into: string; readonly out: string }>> = {
  prove: { into: 'Into the prover', out: 'Out of the prover' },
  retard: { into: 'Into the retarder', out: 'Out of the retarder' },
  cool: { into: 'Into the chiller', out: 'Out of the chiller' },
  freeze: { into: 'Into the freezer', out: 'Out of the freezer' },
  rest: { into: 'Begin the rest', out: 'End the rest' },
  fold: { into: 'Begin folding', out: 'End folding' },
  cook: { into: 'Begin cooking', out: 'End cooking' },
};

/** In and out of the prover, retarder, chiller, freezer; rested and folded. One tap where there is one place to choose from. */
export function Stages({
  subjectType,
  subject,
  stages,
}: {
  readonly subjectType: Type;
  readonly subject: string;
  readonly stages: readonly StageView[];
}) {
  const { state } = useNight();
  const { act, busy, trouble } = useAct();
  const [choosing, setChoosing] = useState<{ readonly step: Step; readonly places: readonly Row<'place'>[] }>();
  const pass = (step: Step, way: Row<'stage'>['way'], place: string | null): void => {
    void act({ kind: 'stage-passed', payload: { subjects: [{ type: subjectType, id: subject }], place, step, way } }).then(() =>
      setChoosing(undefined),
    );
  };
  const go = (step: Step, types: readonly Row<'place'>['type'][]): void => {
    const places = placesOf(state.snapshot, types);
    if (places.length > 1) setChoosing({ step, places });
    else pass(step, 'in', places[0]?.id ?? null);
  };
  const inside = stages.filter((s) => s.to === null);
  return (
    <>
      {trouble}
      <Passed stages={stages} />
      <For needs="record">
        <div className="buttons">
          {inside.map((s) => (
            <Button key={s.step} look="go" disabled={busy} onClick={() => pass(s.step, 'out', s.place)}>
              {passing[s.step].out}
            </Button>
          ))}
          {into
            .filter(([step]) => !inside.some((s) => s.step === step))
            .map(([step, types]) => (
              <Button key={step} disabled={busy} onClick={() => go(step, types)}>
                {passing[step].into}
              </Button>
            ))}
          <Button disabled={busy} onClick={() => pass('fold', 'once', null)}>
            Folded
          </Button>
        </div>
      </For>
      {choosing ? (
        <Sheet title={passing[choosing.step].into} onClose={() => setChoosing(undefined)}>
          <Choice
            label="Where"
            value={null}
            onChange={(place) => pass(choosing.step, 'in', place)}
            options={choosing.places.map((p) => ({ value: p.id, text: p.name }))}
          />
        </Sheet>
      ) : null}
    </>
  );
}

function Passed({ stages }: { readonly stages: readonly StageView[] }) {
  const { zone, now } = useNight();
  if (stages.length === 0) return null;
  const rest = (s: StageView): string =>
    s.to === null ? ` · in for ${howLong(s.from, now)}` : s.to === s.from ? '' : `–${wallTime(s.to, zone)} · ${howLong(s.from, s.to)}`;
  return (
    <ul className="rows">
      {stages.map((s) => (
        <li className="row" key={`${s.step} ${s.from}`}>
          <span className="row-main">
            <strong>{phrase(`stage.${s.step}`)}</strong>
            {s.placeName === null ? '' : `, ${s.placeName}`}
          </span>
          <span className="row-side">
            {wallTime(s.from, zone)}
            {rest(s)}
          </span>
        </li>
      ))}
    </ul>
  );
}
