import { namesFood, type PayloadFor, type Row } from '@bakehouse/records';
import { useRef, useState } from 'react';
import { useLocation } from 'wouter';
import { whole } from '../../shared/format';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';
import { isForeignBody } from '../../shared/reason-field';
import { useAct } from '../../shared/use-act';
import { usePinned } from '../../shared/use-pinned';
import { useSigned } from '../../shared/use-signed';

type Action = PayloadFor<'corrective-action-taken'>['type'];
/** What can become of food at once, by the one who may decide it. */
export const awayAtOnce = ['destroyed', 'feed'] as const;
export type AwayAtOnce = (typeof awayAtOnce)[number];
type Subject = Row<'deviation'>['subjectType'];
interface Pieces {
  readonly all: number;
  /** The lot that they are of; null where it is what the deviation is about. */
  readonly lot: string | null;
}

/** A deviation while it is being reported. A foreign body is proposed as critical, and that somebody could be hurt proposes a hold; both can be changed. */
export function useDeviation(subjectType: Subject, subject: string) {
  const [, go] = useLocation();
  const pieces = usePieces(subjectType, subject);
  const [what, setWhat] = useState('');
  const [part, setPart] = useState<number | null>(null);
  const [clsSaid, setClass] = useState<Row<'deviation'>['class'] | null>(null);
  const [holdsSaid, setHolds] = useState<boolean | null>(null);
  const [action, setAction] = useState<Action | null>(null);
  const [done, setDone] = useState('');
  const [food, setFood] = useState<AwayAtOnce | null>(null);
  const signed = useSigned();
  const { withPin, busy: signing, pad } = usePinned();
  const cls = clsSaid ?? (isForeignBody(what) ? 'ccp' : 'oprp');
  const holds = namesFood(subjectType) && (holdsSaid ?? cls === 'ccp');
  const all = pieces?.all ?? null;
  const words = part === null || all === null ? what : `${whole(part)} of ${whole(all)}: ${what}`;
  const { report, busy, trouble } = useReport({ subjectType, subject, class: cls, holds }, words, action, done);
  const save = (): void => {
    if (food === null) void report().then((id) => (id === undefined ? undefined : go(paths.deviation(id))));
    else
      withPin('You sign: “I decide this disposition of the food”.', async (pin) => {
        const id = await report();
        if (id === undefined) return { title: 'It was not recorded', detail: 'Look at what stands against it in the form.' };
        const figure = part ?? all;
        const quantity = figure === null ? null : ({ figure: String(figure), unit: 'piece' } as const);
        const payload: PayloadFor<'disposition-decided'> = {
          deviation: id,
          lot: pieces?.lot ?? null,
          disposition: food,
          covers: 'this-alone',
          concerns: [],
          quantity,
        };
        const result = await signed(pin, { kind: 'disposition-decided', payload });
        if (result.as === 'trouble') return result.trouble;
        go(paths.deviation(id));
        return undefined;
      });
  };
  return {
    ...{ what, setWhat, pieces, part, setPart, cls, setClass, holds, setHolds, action, setAction, done, setDone, food, setFood },
    ...{ signs: food !== null, save, trouble, pad },
    busy: busy || signing,
    ready: what.trim() !== '' && (action !== 'other' || done.trim() !== ''),
    says: saysOf({ all, part, food, holds }),
  };
}

/** Reports it, with what was done about it: once, however often the PIN is tried afterwards. */
function useReport(payload: PayloadFor<'deviation-reported'>, what: string, action: Action | null, done: string) {
  const { act, busy, trouble } = useAct();
  const reported = useRef<string>(undefined);
  const report = async (): Promise<string | undefined> => {
    if (reported.current !== undefined) return reported.current;
    const saved = await act({ kind: 'deviation-reported', payload, words: { what } });
    reported.current = saved?.id;
    if (saved && action !== null)
      await act({ kind: 'corrective-action-taken', payload: { deviation: saved.id, type: action }, words: { action: done } });
    return saved?.id;
  };
  return { report, busy, trouble };
}

interface Saying {
  readonly all: number | null;
  readonly part: number | null;
  readonly food: AwayAtOnce | null;
  readonly holds: boolean;
}

/** What it will say, a line each: “1 destroyed”, “19 on hold”. */
function saysOf({ all, part, food, holds }: Saying): string[] {
  const gone = food === null ? 0 : (part ?? all ?? 0);
  const rest = all === null ? null : all - gone;
  const away = food === null ? [] : [`${whole(gone)} ${food === 'feed' ? 'to animal feed' : food}`];
  if (!holds) return [...away, 'nothing on hold'];
  if (rest === 0) return away;
  return [...away, rest === null ? 'on hold' : `${whole(rest)} on hold`];
}

/** How many pieces it may be about, and of which lot: where it is one product’s. */
function usePieces(type: Subject, subject: string): Pieces | null {
  const { state, view } = useNight();
  const counted = (all: number | undefined, lot: string | null): Pieces | null => (all === undefined ? null : { all, lot });
  if (type === 'run') return counted(state.rows.get('run', subject)?.pieces, null);
  if (type === 'batch') return counted(state.rows.get('batch', subject)?.pieces, null);
  const lines = type === 'load' ? (view.loads.find((l) => l.id === subject)?.lines ?? []) : [];
  return lines.length === 1 ? counted(lines[0]?.pieces, lines[0]?.run ?? null) : null;
}
