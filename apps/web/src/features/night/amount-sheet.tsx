import { how as hows, type How } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { useState } from 'react';
import { tooLittleFor } from '@bakehouse/views';
import { mass } from '../../shared/format';
import { useNight } from '../../shared/night/use-night';
import { Button, Choice, figureOf, NumberPad, Sheet, StateWord } from '../../ui';

const ways = hows.exclude(['counted']).options;
export interface Amount {
  readonly grams: string | null;
  readonly how: How;
}

/** How much, and how that is known. A typed amount is weighed unless somebody says otherwise. */
export function AmountSheet({
  title,
  value,
  none,
  lots = [],
  against,
  onClose,
  onDone,
}: {
  readonly title: string;
  readonly value: Amount;
  /** The key for what gave nothing, where it is one of several that could have. */
  readonly none?: string;
  /** What it is taken of: where less of that is left by the records, it is said before the tap. */
  readonly lots?: readonly string[];
  /** What so much of it is against, said before the tap. */
  readonly against?: (grams: string) => readonly string[];
  readonly onClose: () => void;
  readonly onDone: (amount: Amount) => void;
}) {
  const [typed, setTyped] = useState(value.grams ?? '');
  const [how, setHow] = useState<How>('weighed');
  const figure = figureOf(typed);
  // What was not put in has no line.
  const some = figure !== undefined && Number(figure) > 0;
  const { lookup } = useNight();
  const short = figure === undefined ? null : tooLittleFor(lookup, lots, Math.round(Number(figure) * 1000));
  const done = (): void => {
    if (some) onDone({ grams: figure, how });
  };
  return (
    <Sheet title={title} onClose={onClose}>
      {short === null ? null : (
        <StateWord shape="diamond" tone="ask">
          {`${short === 0 ? 'nothing' : mass(short)} left by the records: if the rest came from another lot, record that lot too`}
        </StateWord>
      )}
      {(figure !== undefined && some ? (against?.(figure) ?? []) : []).map((text) => (
        <StateWord key={text} shape="diamond" tone="ask">
          {text}
        </StateWord>
      ))}
      <NumberPad label="How much" unit="g" value={typed} onChange={setTyped} onEnter={done} />
      <Choice label="How known" value={how} onChange={setHow} options={ways.map((w) => ({ value: w, text: phrase(`how.${w}`) }))} />
      <div className="buttons">
        <Button look="go" disabled={!some} onClick={done}>
          Take it
        </Button>
        {none === undefined ? null : <Button onClick={() => onDone({ grams: '0', how: 'estimated' })}>{none}</Button>}
        <Button onClick={() => onDone({ grams: null, how: 'estimated' })}>Nobody knows how much</Button>
      </div>
    </Sheet>
  );
}
