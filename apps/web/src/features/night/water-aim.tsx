import { latest } from '@bakehouse/kernel';
import { leavenOf, waterFor, type Row, type Snapshot } from '@bakehouse/records';
import { useState } from 'react';
import { mixesOf, typeFrom } from '../../shared/mixes-of';
import { useNight } from '../../shared/night/use-night';
import { Button, FigureKey, figureOf, NumberPad, Sheet } from '../../ui';

type What = 'flour' | 'room' | 'leaven';
const names: Readonly<Record<What, string>> = { flour: 'Flour', room: 'Room', leaven: 'Leaven' };

/** The water temperature for this dough, with the flour and the room as they were at the last mix of the day until somebody says another figure. */
export function WaterAim({ make, version: { content } }: { readonly make: Row<'make'>; readonly version: Row<'formulaVersion'> }) {
  const { state } = useNight();
  const [typed, setTyped] = useState<Partial<Record<What, string>>>(() => lastFelt(state.snapshot, make.bakeDay));
  const [asking, setAsking] = useState<What>();
  if (content.doughCelsius === null) return null;
  const figures = { flour: figureOf(typed.flour ?? ''), room: figureOf(typed.room ?? ''), leaven: figureOf(typed.leaven ?? '') };
  const has = leavenOf(content, typeFrom(state.snapshot));
  const { flour, room } = figures;
  const answer =
    flour === undefined || room === undefined
      ? undefined
      : waterFor({
          content,
          mixes: mixesOf(state.snapshot, make.formula, make.station),
          unit: 'degC',
          flour: Number(flour),
          room: Number(room),
          leaven: figures.leaven === undefined ? undefined : Number(figures.leaven),
          has,
          grams: make.plannedMg === null ? undefined : String(make.plannedMg / 1000),
        });
  const found = answer?.ok ? answer.value : undefined;
  const { min, max } = content.doughCelsius;
  return (
    <section className="water-aim">
      <h2>Water, aim for</h2>
      {found?.water ? (
        <>
          <p className="water-figure">
            {(Math.round(found.water.celsius * 10) / 10).toFixed(1).replace('-', '−')} <small>°C</small>
          </p>
          {found.water.reachable ? null : <p>{found.water.reason}</p>}
          <p className="faint">
            For dough of {min} to {max} °C. Friction {found.friction.celsius}. {found.friction.says}
          </p>
        </>
      ) : (
        <p className="faint">
          {found?.missing ?? `With the temperature of the flour${has === null ? '' : ', of the leaven'} and of the room it stands here.`}
        </p>
      )}
      <div className="figure-keys">
        {[...(['flour', 'room'] as const), ...(has === null ? [] : (['leaven'] as const))].map((w) => (
          <FigureKey key={w} name={names[w]} figure={figures[w] === undefined ? '–' : `${figures[w]} °C`} onClick={() => setAsking(w)} />
        ))}
      </div>
      {asking === undefined ? null : (
        <Sheet title={names[asking]} onClose={() => setAsking(undefined)}>
          <NumberPad
            label="Temperature"
            unit="°C"
            negative
            value={typed[asking] ?? ''}
            onChange={(v) => setTyped({ ...typed, [asking]: v })}
            onEnter={() => setAsking(undefined)}
          />
          <div className="buttons">
            <Button look="go" onClick={() => setAsking(undefined)}>
              Done
            </Button>
          </div>
        </Sheet>
      )}
    </section>
  );
}

/** What the flour and the room had when something was mixed last on this day. */
function lastFelt({ make, mixed }: Snapshot, day: string): Partial<Record<What, string>> {
  const today = new Set(make.filter((m) => m.bakeDay === day).map((m) => m.id));
  const last = latest(mixed.filter((m) => today.has(m.make) && m.flourMilli !== null && m.roomMilli !== null));
  const degrees = (milli: number | null | undefined): string | undefined =>
    milli === null || milli === undefined ? undefined : String(milli / 1000);
  const [flour, room] = [degrees(last?.flourMilli), degrees(last?.roomMilli)];
  return { ...(flour === undefined ? {} : { flour }), ...(room === undefined ? {} : { room }) };
}
