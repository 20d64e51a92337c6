import { proposedCode, type Row } from '@bakehouse/records';
import { daysAfter, countText } from '@bakehouse/kernel';
import type { BatchView } from '@bakehouse/views';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import { whenText } from '../../shared/format';
import { Button, LinkButton, Notice, Sheet } from '../../ui';
import { paths } from '../../shared/night/paths';
import type { WhenAndWho } from '../../shared/night/when-who';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { Correction } from './correction';
import { CountForm, countedPayload, type Counted } from './count-out';
import { Withdraw } from './withdraw';

/** Two batches that hold the same pieces, or have the same code: who counted each and when, and how to put it right from here. */
export function SamePieces({ b }: { readonly b: BatchView }) {
  const { state } = useNight();
  const row = state.rows.get('batch', b.id);
  if (!row) return null;
  return (
    <>
      <SharedPieces b={b} row={row} />
      <CodeGivenBefore b={b} row={row} />
    </>
  );
}

interface Props {
  readonly b: BatchView;
  readonly row: Row<'batch'>;
}

/** How many, by whom and when. */
export function useCountedText(): (batch: string) => string {
  const { state, zone, now } = useNight();
  return (batch) => {
    const row = state.rows.get('batch', batch);
    if (!row) return '';
    const who = state.snapshot.person.find((p) => p.id === row.doneBy)?.name;
    return `${countText(row.pieces + row.rejects, 'piece')}, counted ${whenText(row.at, now, zone)}${who ? ` by ${who}` : ''}`;
  };
}

function SharedPieces({ b, row }: Props) {
  const { state } = useNight();
  const counted = useCountedText();
  const [, go] = useLocation();
  const [doing, setDoing] = useState<'take-back' | 'correct' | null>(null);
  if (b.sharesWith.length === 0) return null;
  return (
    <Notice tone="bad" title="The same pieces seem to be counted out twice">
      <ul className="rows">
        {[b.id, ...b.sharesWith].map((id) => (
          <li key={id}>
            <Link href={paths.batch(id)} className="row">
              <span className="row-main">
                <strong>{state.rows.get('batch', id)?.code}</strong> {counted(id)}
                {id === b.id ? ' (this one)' : ''}
              </span>
            </Link>
          </li>
        ))}
      </ul>
      <p>
        Look at the pieces and their labels. Take back the batch that is not there, or correct the count that is wrong; until then none of
        them may leave.
      </p>
      <div className="buttons">
        <Button needs="record" onClick={() => setDoing('take-back')}>
          Take this batch back
        </Button>
        <Button needs="record" onClick={() => setDoing('correct')}>
          Correct the count of this batch
        </Button>
      </div>
      {doing === 'take-back' ? (
        <Withdraw
          root={b.id}
          what={`${b.name}, ${b.code}: ${counted(b.id)}`}
          reason="counted out twice"
          onDone={() => go(paths.run(b.run))}
          onClose={() => setDoing(null)}
        />
      ) : null}
      {doing === 'correct' ? <CorrectCount row={row} onClose={() => setDoing(null)} /> : null}
    </Notice>
  );
}

/** When and who, for a correction: the row does not keep how surely the time is known. */
const whenAndWhoOf = ({ at, doneBy }: Row<'batch'>): WhenAndWho => ({
  at: new Date(at),
  precision: 'about',
  ...(doneBy === null ? {} : { doneBy }),
});

function CorrectCount({ row, onClose }: { readonly row: Row<'batch'>; readonly onClose: () => void }) {
  const { state } = useNight();
  const [value, setValue] = useState<Counted>({
    pieces: String(row.pieces),
    rejects: String(row.rejects),
    code: row.code,
    date: row.useBy ?? row.bestBefore ?? '',
  });
  const run = state.rows.get('run', row.run);
  if (!run) return null;
  return (
    <Sheet title={`Correct the count of ${row.code}`} onClose={onClose}>
      <Correction
        kind="batch-counted-out"
        root={row.id}
        whenAndWho={whenAndWhoOf(row)}
        payload={() => countedPayload({ run, loads: row.loads, bakedOn: row.bakedOn }, value)}
        onDone={onClose}
      >
        <CountForm
          value={value}
          onChange={setValue}
          dateType={run.dateType}
          latest={run.lifeDays === null ? null : daysAfter(row.bakedOn, run.lifeDays)}
        />
      </Correction>
    </Sheet>
  );
}

/** Two tablets without a network propose the same code: the later batch gets the next one. */
function CodeGivenBefore({ b, row }: Props) {
  const { state } = useNight();
  const counted = useCountedText();
  const { act, busy, trouble } = useAct();
  if (b.codeOf === null) return null;
  const taken = state.snapshot.batch.map((one) => one.code);
  const own = proposedCode(row.bakedOn, row.product, taken);
  const give = async (): Promise<void> => {
    const { run, loads, pieces, rejects, bakedOn, bestBefore, useBy } = row;
    const payload = { run, loads: [...loads], pieces, rejects, code: own, bakedOn, bestBefore, useBy };
    await act({
      kind: 'batch-counted-out',
      corrects: row.id,
      ...whenAndWhoOf(row),
      words: { reason: `the code ${b.code} was given before` },
      payload,
    });
  };
  return (
    <Notice tone="bad" title={`The code ${b.code} was given before`}>
      {trouble}
      <p>
        It is the code of another batch: {counted(b.codeOf)}. Give this one its own code and label it with that; until then it may not
        leave.
      </p>
      <div className="buttons">
        <Button look="go" disabled={busy} onClick={() => void give()}>
          Give this one the code {own}
        </Button>
        <LinkButton to={paths.batch(b.codeOf)}>The other batch</LinkButton>
      </div>
    </Notice>
  );
}
