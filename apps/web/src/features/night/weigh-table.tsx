import { phrase } from '@bakehouse/records';
import { codeOf } from '@bakehouse/views';
import { AlikeHeld, troubleShape, troubleText } from '../../shared/concerns';
import { mass } from '../../shared/format';
import { codeText } from '../../shared/night/code-text';
import { useNight } from '../../shared/night/use-night';
import { Button, Mark, StateWord } from '../../ui';
import type { Line, Stop } from './weigh-lines';

export interface TableProps {
  readonly lines: readonly Line[];
  readonly onEdit: (line: Line) => void;
  readonly onOpen: (line: Line, ranOut: boolean) => void;
  readonly onUnsure: (material: string) => void;
  readonly onEvenSo: (line: Line) => void;
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
          <tr key={l.key} className={l.goes ? '' : l.stops.some(isGrave) ? 'stopped bad' : 'stopped ask'}>
            <td className="weigh-state">
              <StateOf line={l} />
            </td>
            <td>
              <strong>{l.name}</strong>
              <span className="faint weigh-how">{l.leftOut ? 'left out' : l.goes ? phrase(`how.${l.how}`) : 'not in yet'}</span>
            </td>
            <td>
              <Lots line={l} />
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

const amountOf = ({ grams }: Line): string => (grams === null ? 'how much?' : mass(Number(grams) * 1000));

function StateOf({ line: { goes, lot, stops, alike } }: { readonly line: Line }) {
  if (goes && stops.length === 0 && alike.length > 0) return <Mark shape="diamond" tone="ask" />;
  if (goes && stops.length === 0) return lot === null ? <Mark shape="empty" tone="calm" /> : <Mark shape="disc" tone="good" />;
  const [first] = stops;
  return <Mark shape={first?.said ? troubleShape(first.said) : 'diamond'} tone={stops.some(isGrave) ? 'bad' : 'ask'} />;
}

/** A best-before date and an opened pack ask for a look; what else is said forbids. */
const isGrave = ({ said }: Stop): boolean => said !== null && said !== 'past-best-before';

function Keys({ line: l, onOpen, onUnsure, onEvenSo }: Omit<TableProps, 'lines' | 'onEdit'> & { readonly line: Line }) {
  if (!l.goes)
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
  return (
    <span className="line-keys">
      {l.open > 1 ? (
        <Button label={`${l.name}: ${l.orLots.length > 0 ? 'I know which' : 'not sure which'}`} onClick={() => onUnsure(l.material)}>
          {l.orLots.length > 0 ? 'I know which' : 'Not sure which'}
        </Button>
      ) : null}
      <Button label={`${l.name}: ${l.lot === null ? 'open one' : 'ran out'}`} onClick={() => onOpen(l, true)}>
        {l.lot === null ? 'Open one' : 'Ran out'}
      </Button>
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
      {stop.openTooLong ? (
        <StateWord shape="diamond" tone="ask">
          open too long
        </StateWord>
      ) : null}
    </>
  );
}
