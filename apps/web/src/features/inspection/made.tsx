import type { InspectedBatch, InspectedLoad, InspectedMake } from '@bakehouse/contracts';
import { quantityText } from '@bakehouse/kernel';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { dayText, wallTime, whole } from '../../shared/format';
import { happenedText, whenAndWhoText } from '../../shared/inspected/when-and-who';
import { dayTime } from '../../shared/trace/words';
import { Empty, StateWord } from '../../ui';
import { Readings } from './readings';

const list = (products: readonly { readonly name: string; readonly pieces: number }[]): string =>
  products.map((p) => `${p.name} × ${whole(p.pieces)}`).join(', ');

/** Oven loads with what was read in them. */
export function Loads({ loads, zone }: { readonly loads: readonly InspectedLoad[]; readonly zone: string }) {
  if (loads.length === 0) return <Empty>Nothing was in an oven in this time.</Empty>;
  return (
    <ul className="made">
      {loads.map((l) => (
        <li key={l.id} className="card">
          <h3>{list(l.products)}</h3>
          <p className="faint">
            {l.deck ?? l.oven ?? 'oven not known'}
            {l.celsius === null ? '' : `, set to ${quantityText(String(l.celsius), 'degC')}`}, in {whenAndWhoText(l, zone)}
            {l.steps.map((s) => `; ${phrase(`loadStep.${s.step}` as PhraseKey)} ${happenedText(s, zone, wallTime)}`).join('')}
          </p>
          {l.readings.length === 0 ? (
            <p>
              <StateWord shape="ring" tone="calm">
                no reading taken
              </StateWord>
            </p>
          ) : (
            <Readings readings={l.readings} zone={zone} />
          )}
        </li>
      ))}
    </ul>
  );
}

/** Mixes with what was read in them. */
export function Makes({ makes, zone }: { readonly makes: readonly InspectedMake[]; readonly zone: string }) {
  if (makes.length === 0) return <Empty>Nothing was made in this time.</Empty>;
  return (
    <ul className="made">
      {makes.map((m) => (
        <li key={m.id} className="card">
          <h3>{m.name}</h3>
          <p className="faint">
            {phrase(`formula.${m.type}` as PhraseKey)} for {dayText(m.bakeDay)}
            {m.station === null ? '' : `, ${m.station}`}, begun {whenAndWhoText(m, zone)}
            {m.products.length === 0 ? '' : `; became ${list(m.products)}`}
          </p>
          <Readings readings={m.readings} zone={zone} />
          {m.stages.length === 0 ? null : (
            <p className="faint">
              {m.stages
                .map(
                  (s) =>
                    `${phrase(`stage.${s.step}` as PhraseKey)} ${phrase(`way.${s.way}` as PhraseKey)} ${happenedText(s, zone, wallTime)}${s.place === null ? '' : `, ${s.place}`}`,
                )
                .join('; ')}
            </p>
          )}
        </li>
      ))}
    </ul>
  );
}

/** Batches, and how each was released. */
export function Batches({ batches, zone }: { readonly batches: readonly InspectedBatch[]; readonly zone: string }) {
  if (batches.length === 0) return <Empty>Nothing was counted out in this time.</Empty>;
  return (
    <table className="lines">
      <thead>
        <tr>
          <th scope="col">Batch</th>
          <th scope="col" className="amount">
            Good
          </th>
          <th scope="col" className="amount">
            Rejected
          </th>
          <th scope="col">Date on it</th>
          <th scope="col">Stands now</th>
          <th scope="col">Released</th>
        </tr>
      </thead>
      <tbody>
        {batches.map((b) => (
          <tr key={b.id}>
            <td>
              <strong>{b.name}</strong> {b.code}
              <br />
              <span className="faint">{whenAndWhoText(b, zone)}</span>
            </td>
            <td className="amount">{whole(b.pieces)}</td>
            <td className="amount">{whole(b.rejects)}</td>
            <td>
              {b.useBy === null ? (b.bestBefore === null ? 'none' : `best before ${dayText(b.bestBefore)}`) : `use by ${dayText(b.useBy)}`}
            </td>
            <td>
              <StandsNow standing={b.standing} />
            </td>
            <td>
              <Released b={b} zone={zone} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const shapes = {
  'on-hold': { shape: 'gate', tone: 'bad' },
  waiting: { shape: 'diamond', tone: 'bad' },
  ready: { shape: 'ring', tone: 'calm' },
  released: { shape: 'disc', tone: 'good' },
  gone: { shape: 'ring', tone: 'calm' },
} as const;

/** As of when the page was made: a batch that was released may be on hold since. */
function StandsNow({ standing }: Pick<InspectedBatch, 'standing'>) {
  if (standing === null) return 'not known';
  return <StateWord {...shapes[standing]}>{phrase(`standing.${standing}`)}</StateWord>;
}

function Released({ b: { release }, zone }: { readonly b: InspectedBatch; readonly zone: string }) {
  if (!release)
    return (
      <StateWord shape="bar" tone="calm">
        not released
      </StateWord>
    );
  const spite = release.inSpiteOf.map((f) => f.what ?? f.code).join(', ');
  return release.way === 'by-rule' ? (
    <>
      <StateWord shape="disc" tone="good">
        by rule
      </StateWord>{' '}
      {dayTime(release.at, zone)}
    </>
  ) : (
    <>
      <StateWord shape="diamond" tone="ask">
        by exception, signed
      </StateWord>{' '}
      {dayTime(release.at, zone)}
      {release.by === null ? '' : `, ${release.by}`}
      {spite === '' ? '' : `; in spite of: ${spite}`}
    </>
  );
}
