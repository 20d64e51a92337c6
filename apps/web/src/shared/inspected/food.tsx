import type { InspectedDecision, InspectedWaste } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { ofLot } from '../trace/words';
import { Empty } from '../../ui';
import { amountDecided, signedText } from './decided-words';
import { whenAndWhoText } from './when-and-who';

interface Decided {
  readonly decisions: readonly InspectedDecision[];
  readonly zone: string;
}

/** What was decided about food: destroyed, sent back, used after all, released by exception. */
export function DecidedFood({ decisions, zone }: Decided) {
  if (decisions.length === 0) return <Empty>Nothing was decided about food in this time.</Empty>;
  return (
    <table className="lines">
      <thead>
        <tr>
          <th scope="col">Food</th>
          <th scope="col">Decision</th>
          <th scope="col">About</th>
          <th scope="col">Reason</th>
          <th scope="col">When and who</th>
        </tr>
      </thead>
      <tbody>
        {decisions.map((d) => (
          <tr key={d.id}>
            <td>{d.food ?? 'name not known'}</td>
            <td>
              <strong>{phrase(`${d.type}.${d.decision}` as PhraseKey)}</strong>, {amountDecided(d)}
            </td>
            <td>{d.because ?? ''}</td>
            <td>{d.why === null ? '' : `“${d.why}”`}</td>
            <td className="faint">{signedText(d, zone)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What was thrown away, fed to animals or sent back without a decision about it: scrap and rejects too. */
export function Waste({ waste, zone }: { readonly waste: readonly InspectedWaste[]; readonly zone: string }) {
  if (waste.length === 0) return <Empty>Nothing was recorded as thrown away in this time.</Empty>;
  return (
    <table className="lines">
      <thead>
        <tr>
          <th scope="col">Food</th>
          <th scope="col" className="amount">
            Amount
          </th>
          <th scope="col">Where it went</th>
          <th scope="col">Reason</th>
          <th scope="col">When and who</th>
        </tr>
      </thead>
      <tbody>
        {waste.map((w) => (
          <tr key={w.id}>
            <td>{w.food.length === 1 ? w.food[0] : `one of: ${w.food.join('; ')}`}</td>
            <td className="amount">{ofLot(w)}</td>
            <td>{phrase(`channel.${w.channel}`)}</td>
            <td>{reasonOf(w)}</td>
            <td className="faint">{whenAndWhoText(w, zone)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Scrap and rejects give no reason: the record that tells of them is one. */
const recorded: Readonly<Record<string, string>> = {
  divided: 'scrap when it was divided',
  'batch-counted-out': 'rejected when it was counted out',
  'goods-returned': 'came back',
};
function reasonOf({ note, record }: InspectedWaste): string {
  const said = [...(recorded[record] === undefined ? [] : [recorded[record]]), ...(note === null ? [] : [`“${note}”`])];
  return said.length === 0 ? 'no reason recorded' : said.join(': ');
}
