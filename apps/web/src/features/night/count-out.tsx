import { proposedCode, proposedDates, type PayloadFor, type Row } from '@bakehouse/records';
import { countText, daysAfter } from '@bakehouse/kernel';
import { unfinishedOf, type Unfinished } from '@bakehouse/views';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { dayText, whole } from '../../shared/format';
import { isForeignBody, lossReasons, ReasonField } from '../../shared/reason-field';
import { Button, Field, FigureKey, FigureKeys, LinkButton, Notice, NumberPad, Screen, Sheet } from '../../ui';
import { MoreLoadedWord } from './more-loaded';
import { paths } from '../../shared/night/paths';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';
import { NotHere } from '../../shared/night/not-here';

export interface Counted {
  readonly pieces: string;
  readonly rejects: string;
  readonly code: string;
  readonly date: string;
}
export type CountedOf = { readonly run: Row<'run'>; readonly loads: readonly string[]; readonly bakedOn: string };

/** The payload of a count-out; the date is of the type that the formula gives. */
export function countedPayload(
  { run, loads, bakedOn }: CountedOf,
  { pieces, rejects, code, date }: Counted,
): PayloadFor<'batch-counted-out'> {
  const useBy = run.dateType === 'use-by';
  return {
    run: run.id,
    loads: [...loads],
    pieces: Number(pieces),
    rejects: Number(rejects),
    code: code.trim(),
    bakedOn,
    bestBefore: date === '' || useBy ? null : date,
    useBy: date === '' || !useBy ? null : date,
  };
}

/** All that went in and was not counted yet, with the next code and the dates of the formula. */
function proposed(run: Row<'run'> | undefined, day: string, pieces: number, codes: readonly string[]): Counted {
  const dates = run ? proposedDates(day, run) : { bestBefore: null, useBy: null };
  const code = run ? proposedCode(day, run.product, codes) : '';
  return { pieces: String(pieces), rejects: '0', date: dates.useBy ?? dates.bestBefore ?? '', code };
}

/** The good ones, the rejects, the code and the date: all proposed. */
export function CountOut({ id }: { readonly id: string }) {
  const { view, lookup, state, day } = useNight();
  const [, go] = useLocation();
  const run = state.rows.get('run', id);
  const seen = view.makes.flatMap((m) => m.runs).find((r) => r.id === id);
  const counted = view.batches.filter((b) => b.run === id);
  const before = counted.reduce((sum, b) => sum + b.pieces + b.rejects, 0);
  const codes = view.batches.map((b) => b.code);
  // What is on record in the oven beyond what was made up is not there to be counted.
  const there = Math.min(seen?.loaded ?? 0, seen?.pieces ?? 0);
  const [value, setValue] = useState<Counted>(() => proposed(run, day, Math.max(0, there - before), codes));
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [note, setNote] = useState('');
  const [tooMany, setTooMany] = useState(false);
  const { act, busy, trouble } = useAct();
  const back = { to: paths.run(id), text: run?.productName ?? 'Product' };
  if (!run || !seen) return <NotHere title="Count out" back={back} what="product run" />;
  const loads = seen.loads.filter((l) => !counted.some((b) => b.loads.includes(l)));
  const from = loads.length > 0 ? loads : seen.loads;
  const says = Number(value.pieces) + Number(value.rejects);
  const isMore = there > 0 && before + says > there;
  const save = async (): Promise<void> => {
    setTooMany(false);
    const done = await act({
      kind: 'batch-counted-out',
      ...whenWho,
      words: { note },
      payload: countedPayload({ run, loads: from, bakedOn: day }, value),
    });
    if (done) go(paths.batch(done.id));
  };
  return (
    <Screen
      title={`${run.productName}: count out`}
      back={back}
      actions={
        <Button
          look="go"
          disabled={busy || Number(value.pieces) + Number(value.rejects) === 0 || value.code.trim() === ''}
          onClick={() => (isMore ? setTooMany(true) : void save())}
        >
          Count out {whole(Number(value.pieces))}
        </Button>
      }
    >
      {trouble}
      {seen.moreLoaded > 0 ? <MoreLoadedWord run={seen} /> : null}
      <NotFinished of={unfinishedOf(lookup, from)} />
      <CountForm
        value={value}
        onChange={setValue}
        dateType={run.dateType}
        latest={run.lifeDays === null ? null : daysAfter(day, run.lifeDays)}
      />
      {tooMany ? (
        <TooMany wentIn={there} before={before} says={says} busy={busy} onSave={() => void save()} onClose={() => setTooMany(false)} />
      ) : null}
      {Number(value.rejects) > 0 ? <Rejects run={id} note={note} onNote={setNote} /> : null}
      <WhenWho value={whenWho} onChange={setWhenWho} />
    </Screen>
  );
}

interface TooManyProps {
  readonly wentIn: number;
  readonly before: number;
  readonly says: number;
  readonly busy: boolean;
  readonly onSave: () => void;
  readonly onClose: () => void;
}

/** More cannot come out than went in: one of the figures is not right, and it is asked which before it is recorded. */
function TooMany({ wentIn, before, says, busy, onSave, onClose }: TooManyProps) {
  return (
    <Sheet title={`${whole(before + says - wentIn)} more than went in`} onClose={onClose}>
      <p className="sum">
        {whole(wentIn)} went into the oven{before === 0 ? '' : `, ${whole(before)} were counted out before`}; this says {whole(says)}.
      </p>
      <p>Nothing is recorded yet. Count again, or correct how many went into the oven.</p>
      <div className="buttons">
        <Button look="go" onClick={onClose}>
          Change it
        </Button>
        <Button disabled={busy} onClick={onSave}>
          It is so, count them out
        </Button>
      </div>
    </Sheet>
  );
}

/** Why pieces were rejected; a foreign body may be in the others as well. */
function Rejects({ run, note, onNote }: { readonly run: string; readonly note: string; readonly onNote: (note: string) => void }) {
  return (
    <>
      <ReasonField label="Why rejected?" reasons={lossReasons} value={note} onChange={onNote} />
      {isForeignBody(note) ? (
        <Notice tone="ask" title="It may be in the others as well">
          <p>Report it as a deviation: it can put all of them on hold.</p>
          <div className="buttons">
            <LinkButton to={paths.report('run', run)}>Report a deviation</LinkButton>
          </div>
        </Notice>
      ) : null}
    </>
  );
}

/** What is missing, before pieces are counted out of it. They may be counted all the same: somebody may record the rest later. */
function NotFinished({ of: { inOven, unread } }: { readonly of: Unfinished }) {
  if (inOven === 0 && unread.length === 0) return null;
  return (
    <Notice tone="ask" title="Not finished by the records">
      <ul>
        {inOven === 0 ? null : <li>{inOven === 1 ? '1 load is' : `${whole(inOven)} loads are`} not out of the oven yet</li>}
        {unread.map((u) => (
          <li key={`${u.parameter} ${u.again}`}>
            {u.parameter}: {u.again ? 'to be read again' : 'not read yet'} for {countText(u.loads, 'load')}
          </li>
        ))}
      </ul>
      <p>Finish that first. You can count out all the same; what the plan asks for stays due.</p>
    </Notice>
  );
}

/** Pieces and rejects on one pad; a reject comes off the good ones by itself. */
export function CountForm({
  value,
  onChange,
  dateType,
  latest,
}: {
  readonly value: Counted;
  readonly onChange: (value: Counted) => void;
  readonly dateType: Row<'run'>['dateType'];
  readonly latest: string | null;
}) {
  const [at, setAt] = useState<'pieces' | 'rejects'>('pieces');
  const type = (typed: string): void => {
    const all = Number(value.pieces) + Number(value.rejects);
    onChange(
      at === 'rejects' ? { ...value, rejects: typed, pieces: String(Math.max(0, all - Number(typed))) } : { ...value, pieces: typed },
    );
  };
  const keys = [
    ['pieces', 'Good ones'],
    ['rejects', 'Rejects'],
  ] as const;
  return (
    <div className="two">
      <NumberPad
        key={at}
        label={at === 'pieces' ? 'Good ones' : 'Rejects'}
        value={value[at]}
        decimals={false}
        onChange={type}
        maxDigits={5}
      />
      <div>
        <FigureKeys>
          {keys.map(([k, text]) => (
            <FigureKey key={k} name={text} figure={value[k] === '' ? '0' : value[k]} pressed={k === at} onClick={() => setAt(k)} />
          ))}
        </FigureKeys>
        <Field label="Code" value={value.code} onChange={(code) => onChange({ ...value, code })} maxLength={60} />
        <Field
          label={dateType === 'use-by' ? 'Use by' : 'Best before'}
          type="date"
          value={value.date}
          onChange={(date) => onChange({ ...value, date })}
          hint={
            latest === null
              ? 'No life is laid down for this product.'
              : `At the latest ${dayText(latest)} by its formula; a later date is recorded and reported.`
          }
        />
      </div>
    </div>
  );
}
