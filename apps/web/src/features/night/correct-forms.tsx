import { daysAfter, happened } from '@bakehouse/kernel';
import { kindOf, kinds, payloadOf, type KindName, type PayloadFor } from '@bakehouse/records';
import type { SavedEntry } from '@bakehouse/offline';
import { useState, type ReactNode } from 'react';
import { useLocation } from 'wouter';
import { Correction } from './correction';
import { CorrectAnything } from './correct-anything';
import { CountForm, countedPayload, type Counted } from './count-out';
import { dividedPayload, MakeUpTable, type MadeUp } from './make-up';
import { MixPad, mixPayload, type MixFigures } from './mixed';
import { paths } from '../../shared/night/paths';
import type { WhenAndWho } from '../../shared/night/when-who';
import { ReadingForm } from './reading-form';
import { useNight } from '../../shared/night/use-night';
import { WeighedLines, type WeighedLine } from './weighed-lines';

/** When it happened, by true time, and who did it: a correction says the same of both as what it replaces. */
function whenAndWhoOf({ entry, fate }: SavedEntry): WhenAndWho {
  const read = kindOf(entry)?.read(entry);
  if (!read?.ok) return {};
  const { at, precision } = happened(read.envelope, fate.as === 'recorded' ? fate.recordedAt : undefined);
  return { at: new Date(at), precision: precision === 'exact' ? 'exact' : 'about', doneBy: read.envelope.doneBy };
}

interface Props {
  readonly saved: SavedEntry;
  readonly root: string;
}

/** The form that it was typed in, filled in as it is, with a reason to be given. */
export function CorrectForm({ saved, root }: Props) {
  const [, go] = useLocation();
  const { state } = useNight();
  const payload = saved.entry['payload'];
  switch (kindOf(saved.entry)?.name) {
    case 'reading-taken': {
      const was = payloadOf('reading-taken', payload);
      const point = was?.point ? state.rows.get('controlPoint', was.point) : undefined;
      const { at, doneBy } = whenAndWhoOf(saved);
      if (!was || !point || !at) return null;
      return (
        <ReadingForm
          of={{ subjectType: was.subjectType, subject: was.subject, point }}
          was={{
            entry: root,
            figure: was.value?.figure ?? null,
            instrument: was.instrument,
            seconds: was.seconds,
            at,
            doneBy: doneBy ?? null,
          }}
          onRecorded={() => go(paths.recent)}
        />
      );
    }
    case 'mixed':
      return <Mix saved={saved} root={root} />;
    case 'divided':
      return <Division saved={saved} root={root} />;
    case 'batch-counted-out':
      return <Count saved={saved} root={root} />;
    case 'weighed-in':
      return <Weighing saved={saved} root={root} />;
    default:
      return <Otherwise saved={saved} root={root} />;
  }
}

/** Every other kind, by what it says. */
function Otherwise({ saved, root }: Props) {
  const [, go] = useLocation();
  const kind = kinds.find((k) => k.name === saved.entry['kind'])?.name;
  if (kind === undefined) return null;
  return <CorrectAnything kind={kind} saved={saved} root={root} whenAndWho={whenAndWhoOf(saved)} onDone={() => go(paths.recent)} />;
}

interface AgainProps<K extends KindName> extends Props {
  readonly kind: K;
  readonly payload: () => PayloadFor<K>;
  readonly children: ReactNode;
}

function Again<K extends KindName>({ saved, ...of }: AgainProps<K>) {
  const [, go] = useLocation();
  return <Correction {...of} whenAndWho={whenAndWhoOf(saved)} onDone={() => go(paths.recent)} />;
}

function Mix({ saved, root }: Props) {
  const was = payloadOf('mixed', saved.entry['payload']);
  const [figures, setFigures] = useState<MixFigures>(() => ({
    minutesSlow: String(was?.minutesSlow ?? ''),
    minutesFast: String(was?.minutesFast ?? ''),
    water: was?.water?.figure ?? '',
    flour: was?.flour?.figure ?? '',
    room: was?.room?.figure ?? '',
    dough: was?.dough?.figure ?? '',
  }));
  if (!was) return null;
  return (
    <Again saved={saved} root={root} kind="mixed" payload={() => mixPayload(was.make, figures)}>
      <MixPad figures={figures} onChange={setFigures} />
    </Again>
  );
}

function Division({ saved, root }: Props) {
  const { view, state } = useNight();
  const was = payloadOf('divided', saved.entry['payload']);
  const [made, setMade] = useState<MadeUp>(() => ({
    runs: (was?.runs ?? []).map((r) => ({
      run: r.run,
      product: r.product,
      name: state.rows.get('run', r.run)?.productName ?? '',
      heads: String(r.heads ?? ''),
      pieces: String(r.pieces),
      scaling: r.scaling.figure,
    })),
    oldDough: was?.oldDough?.figure ?? '',
    scrap: was?.scrap?.figure ?? '',
  }));
  if (!was) return null;
  return (
    <Again saved={saved} root={root} kind="divided" payload={() => dividedPayload(was.make, made)}>
      <MakeUpTable made={made} onChange={setMade} inMg={view.makes.find((m) => m.id === was.make)?.inMg ?? null} />
    </Again>
  );
}

function Count({ saved, root }: Props) {
  const { state } = useNight();
  const was = payloadOf('batch-counted-out', saved.entry['payload']);
  const run = was && state.rows.get('run', was.run);
  const [value, setValue] = useState<Counted>(() => ({
    pieces: String(was?.pieces ?? ''),
    rejects: String(was?.rejects ?? ''),
    code: was?.code ?? '',
    date: was?.useBy ?? was?.bestBefore ?? '',
  }));
  if (!was || !run) return null;
  return (
    <Again
      saved={saved}
      root={root}
      kind="batch-counted-out"
      payload={() => countedPayload({ run, loads: was.loads, bakedOn: was.bakedOn }, value)}
    >
      <CountForm
        value={value}
        onChange={setValue}
        dateType={run.dateType}
        latest={run.lifeDays === null ? null : daysAfter(was.bakedOn, run.lifeDays)}
      />
    </Again>
  );
}

function Weighing({ saved, root }: Props) {
  const was = payloadOf('weighed-in', saved.entry['payload']);
  const [lines, setLines] = useState<readonly WeighedLine[]>(was?.lines ?? []);
  if (!was) return null;
  return (
    <Again saved={saved} root={root} kind="weighed-in" payload={() => ({ make: was.make, lines: [...lines] })}>
      <WeighedLines lines={lines} onChange={setLines} />
    </Again>
  );
}
