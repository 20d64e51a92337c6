import { countText } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import type { MakeView } from '@bakehouse/views';
import { mass } from '../../shared/format';
import { Button, StateWord } from '../../ui';
import { WaterAim } from './water-aim';
import type { Line } from './weigh-lines';
import { farText } from './weigh-table';

interface Props {
  readonly make: Row<'make'>;
  readonly version: Row<'formulaVersion'>;
  readonly seen: MakeView;
  readonly going: readonly Line[];
  readonly waiting: readonly Line[];
  readonly busy: boolean;
  /** What of it is against the rule about rework. */
  readonly against: readonly string[];
  readonly onRecord: () => void;
}

/** Beside the lines: the water to aim for, what is in so far, and the one key that weighs in what is shown. */
export function WeighAside({ make, version, seen, going, waiting, busy, against, onRecord }: Props) {
  const all = going.length + waiting.length;
  const known = going.flatMap((l) => (l.grams === null ? [] : [Number(l.grams) * 1000]));
  const names = [...new Set(waiting.map((l) => l.name))].join(', ');
  const far = new Map(going.flatMap((l) => (l.farPercent === null ? [] : [[l.material, `${l.name}: ${farText(l.farPercent)}`]])));
  return (
    <aside className="weigh-aside" aria-label="The mix so far">
      <WaterAim make={make} version={version} />
      <p className="weigh-sum">
        In so far <b>{seen.lines.length === 0 ? 'nothing' : mass(seen.inMg)}</b>
        {make.plannedMg === null ? '' : ` of ${mass(make.plannedMg)}`}
      </p>
      {all === 0 ? null : (
        <>
          <p className="weigh-sum">
            {going.length} of {countText(all, 'line')},{' '}
            <b>{`${known.length < going.length ? 'at least ' : ''}${mass(known.reduce((sum, mg) => sum + mg, 0))}`}</b>
          </p>
          {names === '' ? null : <p className="faint">Not in yet: {names}. The rest goes in without it.</p>}
          {[...far].map(([material, text]) => (
            <StateWord key={material} shape="diamond" tone="ask">
              {text}
            </StateWord>
          ))}
          {against.map((text) => (
            <StateWord key={text} shape="diamond" tone="ask">
              {text}
            </StateWord>
          ))}
          <Button look="go" disabled={busy || going.length === 0} onClick={onRecord}>
            {`Weigh in ${countText(going.length, 'line')}`}
          </Button>
        </>
      )}
    </aside>
  );
}
