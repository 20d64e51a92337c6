import type { Judged, NewEntryOf, OutcomeOf, PayloadFor, Row } from '@bakehouse/records';
import { quantityText } from '@bakehouse/kernel';
import { useState, type ReactNode } from 'react';
import { useLocation } from 'wouter';
import { Button, Caution, FigureKey, FigureKeys, figureOf, LinkButton, NumberPad, Screen } from '../../ui';
import { paths } from '../../shared/night/paths';
import { usePreview } from '../../shared/night/preview';
import { VerdictPreview } from './verdict-preview';
import { ReadingResult } from './reading-result';
import { FrictionLine } from './mixed-facts';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';
import { NotHere } from '../../shared/night/not-here';
import '../../ui/styles/pads.css';

const keys = ['minutesSlow', 'minutesFast', 'water', 'flour', 'room', 'dough'] as const;
export type MixKey = (typeof keys)[number];
const names: Readonly<Record<MixKey, { readonly text: string; readonly unit: string }>> = {
  minutesSlow: { text: 'Slow', unit: 'min' },
  minutesFast: { text: 'Fast', unit: 'min' },
  water: { text: 'Water', unit: '°C' },
  flour: { text: 'Flour', unit: '°C' },
  room: { text: 'Room', unit: '°C' },
  dough: { text: 'Dough', unit: '°C' },
};
export type MixFigures = Readonly<Record<MixKey, string>>;

/** The payload of a mix from figures as typed; what was left out is not known. */
export function mixPayload(make: string, figures: MixFigures): PayloadFor<'mixed'> {
  const minutes = (typed: string): number | null => {
    const f = figureOf(typed);
    return f === undefined ? null : Math.round(Number(f));
  };
  const celsius = (typed: string) => {
    const figure = figureOf(typed);
    return figure === undefined ? null : { figure, unit: 'degC' as const };
  };
  return {
    make,
    minutesSlow: minutes(figures.minutesSlow),
    minutesFast: minutes(figures.minutesFast),
    water: celsius(figures.water),
    flour: celsius(figures.flour),
    room: celsius(figures.room),
    dough: celsius(figures.dough),
  };
}

/** Six figures and one pad: whichever is chosen is being typed. */
export function MixPad({
  figures,
  onChange,
  first = 'dough',
  beside,
  children,
}: {
  readonly figures: MixFigures;
  readonly onChange: (next: MixFigures) => void;
  readonly first?: MixKey;
  /** What stands below the figures. */
  readonly beside?: ReactNode;
  /** What stands below the pad. */
  readonly children?: ReactNode;
}) {
  const [at, setAt] = useState<MixKey>(first);
  return (
    <div className="two">
      <div className="pad-side">
        <NumberPad
          key={at}
          label={names[at].text}
          unit={names[at].unit}
          value={figures[at]}
          negative={names[at].unit === '°C'}
          decimals={names[at].unit === '°C'}
          onChange={(v) => onChange({ ...figures, [at]: v })}
        />
        {children}
      </div>
      <div>
        <FigureKeys>
          {keys.map((k) => (
            <FigureKey
              key={k}
              name={names[k].text}
              figure={figures[k] === '' ? '–' : `${figures[k]} ${names[k].unit}`}
              pressed={k === at}
              onClick={() => setAt(k)}
            />
          ))}
        </FigureKeys>
        {beside}
      </div>
    </div>
  );
}

/** The key says which temperature it records: the one that is judged. */
function recordText({ dough }: MixFigures): string {
  const figure = figureOf(dough);
  return figure === undefined ? 'Record the mix' : `Record the mix, dough ${quantityText(figure, 'degC')}`;
}

interface Found {
  readonly mix: OutcomeOf<'mixed'>;
  readonly reading: { readonly entry: string; readonly judged: Judged } | undefined;
  readonly dough: string;
  readonly point: Row<'controlPoint'> | undefined;
}

/** The dough's temperature as the reading that the plan asks for. */
const doughRead = (make: string, point: Row<'controlPoint'>, figure: string): NewEntryOf<'reading-taken'> => ({
  kind: 'reading-taken',
  payload: {
    ...{ subjectType: 'make', subject: make, point: point.id, measured: 'dough', parameter: point.content.parameter },
    ...{ instrument: null, value: { figure, unit: 'degC' }, yes: null, seconds: null },
  },
});

interface PreviewProps {
  readonly make: string;
  readonly point: Row<'controlPoint'>;
  readonly dough: string;
  readonly onDough: (figure: string) => void;
}

/** What the dough's temperature would be judged as, while it is being typed. */
function DoughPreview({ make, point, dough, onDough }: PreviewProps) {
  const given = figureOf(dough);
  const preview = usePreview(given === undefined ? undefined : doughRead(make, point, given));
  if (given === undefined) return null;
  const reading = { preview, given, unit: 'degC' as const, doubt: null, measured: 'dough' as const, setFigure: onDough };
  return <VerdictPreview of={{ subjectType: 'make', subject: make, point }} reading={reading} />;
}

/** Minutes and temperatures once; the dough's temperature is its reading too, judged at once. */
export function Mixed({ id }: { readonly id: string }) {
  const { view, state } = useNight();
  const make = view.makes.find((m) => m.id === id);
  const version = make && state.rows.get('formulaVersion', make.formulaVersion);
  const due = view.due.find((d) => d.subject === id && d.measured === 'dough');
  const point = due && state.rows.get('controlPoint', due.point);
  const [figures, setFigures] = useState<MixFigures>(() => ({
    minutesSlow: String(version?.content.minutesSlow ?? ''),
    minutesFast: String(version?.content.minutesFast ?? ''),
    water: '',
    flour: '',
    room: '',
    dough: '',
  }));
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [found, setFound] = useState<Found>();
  const { act, busy, trouble } = useAct();
  const back = { to: paths.make(id), text: make?.name ?? 'Mix' };
  if (!make) return <NotHere title="Mixed" back={back} what="mix" />;
  const save = async (): Promise<void> => {
    const payload = mixPayload(id, figures);
    const mixed = await act({ kind: 'mixed', ...whenWho, payload });
    if (!mixed) return;
    const read = point && payload.dough ? await act({ ...doughRead(id, point, payload.dough.figure), ...whenWho }) : undefined;
    setFound({
      mix: mixed.outcome,
      reading: read && { entry: read.id, judged: read.outcome },
      dough: payload.dough?.figure ?? '',
      point,
    });
  };
  const beside = point ? (
    <DoughPreview make={id} point={point} dough={figures.dough} onDough={(dough) => setFigures({ ...figures, dough })} />
  ) : null;
  if (found) return <OnRecord id={id} name={make.name} found={found} />;
  return (
    <Screen title={`${make.name}: mixed`} back={back}>
      {trouble}
      <MixPad figures={figures} onChange={setFigures} beside={beside}>
        <div className="buttons main-key">
          <Button look="go" disabled={busy} onClick={() => void save()}>
            {recordText(figures)}
          </Button>
        </div>
        <WhenWho value={whenWho} onChange={setWhenWho} />
      </MixPad>{' '}
    </Screen>
  );
}

function OnRecord({ id, name, found }: { readonly id: string; readonly name: string; readonly found: Found }) {
  const [, go] = useLocation();
  return (
    <Screen
      title={`${name}: mixed`}
      back={{ to: paths.make(id), text: name }}
      actions={<LinkButton to={paths.makeUp(id)}>Make up into products</LinkButton>}
    >
      {found.reading && found.point ? (
        <ReadingResult
          of={{ subjectType: 'make', subject: id, point: found.point }}
          found={found.reading.judged}
          entry={found.reading.entry}
          figure={`${found.dough} °C`}
          onAgain={() => go(paths.make(id))}
        />
      ) : (
        <p className="sum">Mixed is on record.</p>
      )}
      <FrictionLine found={{ frictionMilli: found.mix.friction, expectedFrictionMilli: found.mix.expected, causes: found.mix.causes }} />
      <Caution />
    </Screen>
  );
}
