import { phrase } from '@bakehouse/records';
import { codeOf } from '@bakehouse/views';
import { AlikeHeld, onlyWarns, troubleShape, troubleText } from '../../shared/concerns';
import { mass } from '../../shared/format';
import { codeText } from '../../shared/night/code-text';
import { useNight } from '../../shared/night/use-night';
import { Button, Mark, StateWord } from '../../ui';
import { OpenTooLong } from './lot-cell';
import type { Line, Stop } from './weigh-lines';

export interface TableProps {
  readonly lines: readonly Line[];
  readonly onEdit: (line: Line) => void;
  readonly onOpen: (line: Line, ranOut: boolean) => void;
  readonly onUnsure: (material: string) => void;
  readonly onEvenSo: (line: Line) => void;
  readonly onEvenShort: (line: Line) => void;
}

/** One row a line: how it stands, what it is, its lot, how much. What something speaks against says so on its own line and stops no other. */
export function WeighTable({ lines, ...does }: TableProps) {
  return (
    <table className="lines weigh-lines">
      <thead className="unseen">
        <tr>
          <th scope="col">State</th>
          <th scope="col">What</th>
          <th scope="col">Lot</th>
          <th scope="col">How much</th>
          <th scope="col">Changes</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((l) => (
          <tr key={l.key} className={l.goes || l.none ? '' : l.stops.some(isGrave) ? 'stopped bad' : 'stopped ask'}>
            <td className="weigh-state">
              <StateOf line={l} />
            </td>
            <td>
              <strong>{l.name}</strong>
              <span className="faint weigh-how">{howOf(l)}</span>
              {l.farPercent === null || l.none ? null : (
                <StateWord shape="diamond" tone="ask">
                  {farText(l.farPercent)}
                </StateWord>
              )}
            </td>
            <td>
              <Lots line={l} />
              <TooLittle line={l} />
            </td>
            <td className="amount">
              {l.leftOut ? null : (
                <Button look="quiet" label={`${l.name}: change ${amountOf(l)}`} onClick={() => does.onEdit(l)}>
                  {amountOf(l)}
                </Button>
              )}
            </td>
            <td>
              <Keys line={l} {...does} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const amountOf = ({ grams, none, asked }: Line): string =>
  none ? 'nothing of it' : grams === null ? (asked ? 'how much?' : 'not known') : mass(Number(grams) * 1000);

/** How what is in the mix by its amount is not what the formula asks for. */
export const farText = (percent: number): string => `${Math.abs(percent)} % ${percent < 0 ? 'less' : 'more'} than the formula`;

const howOf = (l: Line): string => {
  if (l.leftOut) return 'left out';
  if (l.asked) return l.grams === null ? 'how much of this one?' : 'waits for the other lot';
  if (l.none) return 'not used by the amounts';
  if (l.shortOf !== null) return 'not in yet';
  return l.goes ? phrase(`how.${l.how}`) : 'not in yet';
};

function StateOf({ line: { goes, lot, stops, alike, none, asked, shortOf } }: { readonly line: Line }) {
  if (none && stops.length === 0) return <Mark shape="empty" tone="calm" />;
  if ((asked || shortOf !== null) && stops.length === 0) return <Mark shape="diamond" tone="ask" />;
  if (goes && stops.length === 0 && alike.length > 0) return <Mark shape="diamond" tone="ask" />;
  if (goes && stops.length === 0) return <Mark shape={lot === null ? 'empty' : 'ring'} tone="calm" />;
  const [first] = stops;
  return <Mark shape={first?.said ? troubleShape(first.said) : 'diamond'} tone={stops.some(isGrave) ? 'bad' : 'ask'} />;
}

/** An opened pack asks for a look, as some of what is said does; the rest forbids. */
const isGrave = ({ said }: Stop): boolean => said !== null && !onlyWarns(said);

/** That there is less of it by the records than the line takes: where the rest came from is asked before it is recorded. */
function TooLittle({ line: l }: { readonly line: Line }) {
  if (l.shortOf === null || l.leftOut || l.asked || l.none) return null;
  return (
    <StateWord shape="diamond" tone="ask">
      {`${l.shortOf === 0 ? 'nothing' : mass(l.shortOf)} left by the records: from which other lot?`}
    </StateWord>
  );
}

function Keys({ line: l, onOpen, onUnsure, onEvenSo, onEvenShort }: Omit<TableProps, 'lines' | 'onEdit'> & { readonly line: Line }) {
  if (l.stops.length > 0 && !l.goes && !l.asked)
    return (
      <span className="line-keys">
        {l.leftOut ? null : (
          <Button label={`${l.name}: open another lot`} onClick={() => onOpen(l, false)}>
            Open another
          </Button>
        )}
        <Button label={`${l.name}: use it all the same`} onClick={() => onEvenSo(l)}>
          Use it all the same
        </Button>
      </span>
    );
  if (l.shortOf !== null && !l.asked && !l.none)
    return (
      <span className="line-keys">
        <Button label={`${l.name}: the rest from another lot`} onClick={() => onOpen(l, true)}>
          Another lot
        </Button>
        <Button label={`${l.name}: all of it from this lot all the same`} onClick={() => onEvenShort(l)}>
          All from this one
        </Button>
      </span>
    );
  return (
    <span className="line-keys">
      {l.open > 1 ? (
        <Button label={`${l.name}: ${l.orLots.length > 0 ? 'I know which' : 'not sure which'}`} onClick={() => onUnsure(l.material)}>
          {l.orLots.length > 0 ? 'I know which' : 'Not sure which'}
        </Button>
      ) : null}
      {l.closed ? null : (
        <Button label={`${l.name}: ${l.lot === null ? 'open one' : 'ran out'}`} onClick={() => onOpen(l, true)}>
          {l.lot === null ? 'Open one' : 'Ran out'}
        </Button>
      )}
    </span>
  );
}

function Lots({ line }: { readonly line: Line }) {
  const { lookup } = useNight();
  const { lot, orLots, stops, alike } = line;
  if (lot === null) return <span className="faint">nothing open</span>;
  return (
    <>
      {orLots.length === 0 ? null : 'any of '}
      {[lot, ...orLots].map((one) => (
        <div key={one}>
          <span className="lot-code">{codeText(codeOf(lookup, one))}</span>
          {stops
            .filter((s) => s.lot === one)
            .map((s) => (
              <Why key={s.lot} stop={s} />
            ))}
          {alike.includes(one) ? <AlikeHeld /> : null}
        </div>
      ))}
    </>
  );
}

function Why({ stop }: { readonly stop: Stop }) {
  return (
    <>
      {stop.said === null ? null : (
        <StateWord shape={troubleShape(stop.said)} tone={isGrave(stop) ? 'bad' : 'ask'}>
          {troubleText(stop.said)}
        </StateWord>
      )}
      {stop.openTooLong ? <OpenTooLong /> : null}
    </>
  );
}
