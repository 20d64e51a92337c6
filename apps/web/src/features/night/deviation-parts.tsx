import { actionType, phrase } from '@bakehouse/records';
import { useState } from 'react';
import { whole } from '../../shared/format';
import { Button, Choice, Field, FigureSheet } from '../../ui';
import { awayAtOnce, type useDeviation } from './use-deviation';

type Deviation = ReturnType<typeof useDeviation>;

/** All of it, or so many of them. */
export function PartOf({ d }: { readonly d: Deviation }) {
  const [asking, setAsking] = useState(false);
  const { pieces, part, setPart } = d;
  if (pieces === null || pieces.all < 2) return null;
  const all = whole(pieces.all);
  return (
    <div className="part-of" role="group" aria-label="How many of them">
      <Button label="one fewer" disabled={part === null || part <= 1} onClick={() => setPart((part ?? 1) - 1)}>
        −
      </Button>
      <Button look="quiet" label={`${part === null ? `All ${all}` : whole(part)}: say how many`} onClick={() => setAsking(true)}>
        <b className="part-figure">{part === null ? `all ${all}` : whole(part)}</b>
      </Button>
      <Button label="one more" disabled={part === pieces.all} onClick={() => setPart(part === null ? 1 : part + 1)}>
        +
      </Button>
      <span>{part === null ? 'of them' : `of ${all}`}</span>
      {part === null ? null : (
        <Button look="quiet" onClick={() => setPart(null)}>
          All of them
        </Button>
      )}
      {asking ? <HowMany all={pieces.all} value={part} onChange={setPart} onClose={() => setAsking(false)} /> : null}
    </div>
  );
}

interface HowManyProps {
  readonly all: number;
  readonly value: number | null;
  readonly onChange: (part: number | null) => void;
  readonly onClose: () => void;
}

function HowMany({ all, value, onChange, onClose }: HowManyProps) {
  const typed = (text: string): void => {
    const n = Math.min(all, Number(text));
    onChange(n > 0 ? n : null);
  };
  return (
    <FigureSheet
      title="How many of them?"
      onClose={onClose}
      label="Pieces"
      decimals={false}
      maxDigits={5}
      value={value === null ? '' : String(value)}
      onChange={typed}
    />
  );
}

/** Back in the oven has a key of its own. */
const actions = ['none', ...actionType.exclude(['back-in-the-oven']).options] as const;

/** What was done at once, and what becomes of the food: whose PIN signs it may decide that. */
export function DoneAboutIt({ d }: { readonly d: Deviation }) {
  return (
    <>
      <Choice
        label="Corrective action"
        value={d.action ?? 'none'}
        onChange={(a) => d.setAction(a === 'none' ? null : a)}
        options={actions.map((a) => ({ value: a, text: a === 'none' ? 'none yet' : phrase(`action.${a}`) }))}
      />
      {d.action === null ? null : (
        <Field
          label={d.action === 'other' ? 'What was done, in a few words' : 'A few words, if you like'}
          value={d.done}
          onChange={d.setDone}
          maxLength={400}
        />
      )}
      {d.pieces === null ? null : (
        <Choice
          label={d.part === null ? 'Disposition, signed with a PIN' : `Disposition of ${whole(d.part)}, signed with a PIN`}
          value={d.food ?? 'later'}
          onChange={(f) => d.setFood(f === 'later' ? null : f)}
          options={[
            { value: 'later' as const, text: 'decided later' },
            ...awayAtOnce.map((f) => ({ value: f, text: phrase(`disposition.${f}`) })),
          ]}
        />
      )}
    </>
  );
}
