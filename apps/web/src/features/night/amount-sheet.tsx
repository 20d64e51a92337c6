import { how as hows, type How } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { useState } from 'react';
import { Button, Choice, figureOf, NumberPad, Sheet } from '../../ui';

const ways = hows.exclude(['counted']).options;
export interface Amount {
  readonly grams: string | null;
  readonly how: How;
}

/** How much, and how that is known. A typed amount is weighed unless somebody says otherwise. */
export function AmountSheet({
  title,
  value,
  onClose,
  onDone,
}: {
  readonly title: string;
  readonly value: Amount;
  readonly onClose: () => void;
  readonly onDone: (amount: Amount) => void;
}) {
  const [typed, setTyped] = useState(value.grams ?? '');
  const [how, setHow] = useState<How>('weighed');
  const figure = figureOf(typed);
  // What was not put in has no line.
  const some = figure !== undefined && Number(figure) > 0;
  const done = (): void => {
    if (some) onDone({ grams: figure, how });
  };
  return (
    <Sheet title={title} onClose={onClose}>
      <NumberPad label="How much" unit="g" value={typed} onChange={setTyped} onEnter={done} />
      <Choice label="How known" value={how} onChange={setHow} options={ways.map((w) => ({ value: w, text: phrase(`how.${w}`) }))} />
      <div className="buttons">
        <Button look="go" disabled={!some} onClick={done}>
          Take it
        </Button>
        <Button onClick={() => onDone({ grams: null, how: 'estimated' })}>Nobody knows how much</Button>
      </div>
    </Sheet>
  );
}
