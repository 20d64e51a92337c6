import { dimensionOf, quantityText } from '@bakehouse/kernel';
import { payloadOf, pointMeasured, type Judged, type NewEntryOf, type PointContent, type Row } from '@bakehouse/records';
import { doubtOn, instrumentsFor, proposedInstrument } from '@bakehouse/views';
import { useState } from 'react';
import { figureOf } from '../../ui';
import { usePreview } from '../../shared/night/preview';
import { useNight } from '../../shared/night/use-night';
import type { WhenAndWho } from '../../shared/night/when-who';
import { readingDoubt } from '../../shared/reading-doubt';
import type { useTabletState } from '../../shared/tablet-context';
import { useAct } from '../../shared/use-act';
import { nowUsed, usedLast } from '../../shared/used-last';
import { isTooEarly } from './too-early';

export interface ReadingOf {
  readonly subjectType: Row<'reading'>['subjectType'];
  readonly subject: string;
  readonly point: Row<'controlPoint'>;
}
/** What a correction begins with. */
export interface WasRead {
  readonly entry: string;
  readonly figure: string | null;
  readonly instrument: string | null;
  readonly seconds: number | null;
  readonly at: Date;
  readonly doneBy: string | null;
}

export interface ReadingProps {
  readonly of: ReadingOf;
  readonly was?: WasRead;
  /** When it can first be taken; null where nobody knows, or asks. */
  readonly dueFrom?: string | null;
  readonly onRecorded: (entry: string, judged: Judged, figure: string) => void;
}

type Measured = Row<'reading'>['measured'];
export const temperatures = pointMeasured.extract(['core', 'surface', 'between-packs', 'air', 'liquid', 'dough']).options;

/** What is read for one control point, what it would meet, and its recording; a correction begins with what was read. */
export function useReading({ of: { subjectType, subject, point }, was, dueFrom = null, onRecorded }: ReadingProps) {
  const { measured: askedAt, holdSeconds, parameter } = point.content;
  const unit = unitOf(point.content);
  const { lookup, zone, now } = useNight();
  const readWith = useInstruments(point, purposeOf(point), was);
  const { instrument, toAsk } = readWith;
  const [choosing, setChoosing] = useState<boolean | null>();
  const [figure, setFigure] = useState(was?.figure ?? '');
  const [seconds, setSeconds] = useState(was?.seconds === null || was === undefined ? '' : String(was.seconds));
  const [measured, setMeasured] = useState<Measured>(askedAt);
  const [whenWho, setWhenWho] = useState<WhenAndWho>(was ? { at: was.at, ...(was.doneBy === null ? {} : { doneBy: was.doneBy }) } : {});
  const [reason, setReason] = useState('');
  const [asking, setAsking] = useState<boolean | null>();
  const { act, busy, trouble } = useAct();
  const at = whenWho.at?.toISOString() ?? now;
  const doubt = readingDoubt(doubtOn(lookup, { instrument, class: point.content.class, unit, at }), zone);
  const given = figureOf(figure);
  const draft = (yes: boolean | null): NewEntryOf<'reading-taken'> => ({
    kind: 'reading-taken',
    ...whenWho,
    ...(was ? { corrects: was.entry, words: { reason } } : {}),
    payload: {
      ...{ subjectType, subject, point: point.id, measured, parameter, instrument, yes },
      value: yes === null && given !== undefined ? { figure: given, unit } : null,
      seconds: holdSeconds === null || seconds === '' ? null : Number(seconds),
    },
  });
  const preview = usePreview(given === undefined ? undefined : draft(null));
  const record = async (yes: boolean | null): Promise<void> => {
    setAsking(undefined);
    const done = await act(draft(yes));
    if (!done) return;
    if (instrument !== null) nowUsed(purposeOf(point), instrument);
    onRecorded(done.id, done.outcome, yes === null ? quantityText(given ?? '', unit) : yes ? 'yes' : 'no');
  };
  const save = (yes: boolean | null): void => {
    if (yes === null && given === undefined) return;
    if (toAsk) setChoosing(yes);
    else if (!was && isTooEarly(at, dueFrom)) setAsking(yes);
    else void record(yes);
  };
  return {
    ...{
      figure,
      setFigure,
      given,
      unit,
      isTemperature: dimensionOf(unit) === 'temperature',
      doubt,
      seconds,
      setSeconds,
      measured,
      setMeasured,
      whenWho,
      setWhenWho,
    },
    ...{ reason, setReason, preview, save, record, asking, setAsking, choosing, setChoosing, busy, trouble, ...readWith },
  };
}
export type BeingRead = ReturnType<typeof useReading>;

const purposeOf = ({ content }: Row<'controlPoint'>): string => `instrument, ${content.measured}`;

const unitOf = ({ limit }: Pick<PointContent, 'limit'>) => (limit.type === 'range' ? limit.unit : 'min');

/**
 * The instruments that can read what is asked. The one that the like was read with last is there from the start; where none is, one is asked for at a
 * critical point before the reading is recorded, and “not said” is an answer too.
 */
function useInstruments({ content }: Row<'controlPoint'>, purpose: string, was: WasRead | undefined) {
  const { state, lookup, now } = useNight();
  const instruments = instrumentsFor(state.snapshot, content);
  const unit = unitOf(content);
  const inDoubt = (id: string): boolean => doubtOn(lookup, { instrument: id, class: content.class, unit, at: now }) !== null;
  const [chosen, setInstrument] = useState<string | null | undefined>(() =>
    was ? was.instrument : (proposedInstrument(state.snapshot, content, [usedLast(purpose), lastRead(state.recent)], inDoubt) ?? undefined),
  );
  const toAsk = chosen === undefined && instruments.length > 0 && content.class === 'ccp';
  return { instruments, instrument: chosen ?? null, isChosen: chosen !== undefined, toAsk, setInstrument };
}

/** Where nothing was read for the like on this tablet yet: what anything was read with last. */
function lastRead(recent: ReturnType<typeof useTabletState>['recent']): string | null {
  for (const { entry } of recent) {
    const used = entry['kind'] === 'reading-taken' ? payloadOf('reading-taken', entry['payload'])?.instrument : undefined;
    if (typeof used === 'string') return used;
  }
  return null;
}
