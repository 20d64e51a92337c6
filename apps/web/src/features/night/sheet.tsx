import { observedText } from '@bakehouse/kernel';
import { official } from '@bakehouse/records';
import { dayText, mass, limitText, wallTime, whole } from '../../shared/format';
import { Button, Caution, Empty, Screen, Section } from '../../ui';
import { paths } from '../../shared/night/paths';
import { readingDoubt } from '../../shared/reading-doubt';
import { useNight, type Night } from '../../shared/night/use-night';
import { DecidedOnTheDay } from './sheet-decided';

/** The day on paper: mixes, loads with readings and batches in the words of the law, then what was found, held, recalled, decided and thrown away. */
export function DaySheet() {
  const night = useNight();
  const { zone, state, day } = night;
  const seal = state.sizes.map((s) => `${s.name}: ${whole(s.size)} records`).join(' · ');
  return (
    <Screen
      title={`${state.site.name}, ${dayText(day)}`}
      back={{ to: paths.today, text: 'Today’s bake' }}
      actions={
        <Button look="go" onClick={() => window.print()}>
          Print
        </Button>
      }
    >
      <Runs night={night} />
      <Loads night={night} />
      <Batches night={night} />
      <DecidedOnTheDay night={night} />
      <Caution />
      <p className="faint">
        As of {state.asOf === null ? 'this tablet' : wallTime(state.asOf, zone)}
        {state.pending.length === 0 ? '' : `, with ${whole(state.pending.length)} records still to be sent`}. {seal}
      </p>
    </Screen>
  );
}

function Runs({ night: { view, zone } }: { readonly night: Night }) {
  return (
    <Section title="Production runs">
      {view.makes.length === 0 ? (
        <Empty>None.</Empty>
      ) : (
        view.makes.map((m) => (
          <table className="lines" key={m.id}>
            <caption>
              <strong>{m.name}</strong>, {wallTime(m.at, zone)}, {mass(m.inMg)}
            </caption>
            <tbody>
              {m.lines.map((l, i) => (
                <tr key={`${l.lot} ${i}`}>
                  <td>{l.name}</td>
                  <td className="amount">{mass(l.mg)}</td>
                  <td>{official(`how.${l.how}`)}</td>
                  <td>{l.code.code ?? official(`codeState.${l.code.known === 'named-later' ? 'not-known-yet' : l.code.known}`)}</td>
                </tr>
              ))}
              {m.readings.map((r) => (
                <tr key={r.id}>
                  <td>{r.parameter}</td>
                  <td className="amount">{observedText(r)}</td>
                  <td>{r.judgedBy ? limitText(r.judgedBy) : ''}</td>
                  <td>{readingDoubt(r.doubt, zone) ?? official(`verdict.${r.verdict}`)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        ))
      )}
    </Section>
  );
}

function Loads({ night: { view, zone } }: { readonly night: Night }) {
  return (
    <Section title="Oven loads">
      {view.loads.length === 0 ? (
        <Empty>None.</Empty>
      ) : (
        <table className="lines">
          <thead>
            <tr>
              <th scope="col">Load</th>
              <th scope="col">In</th>
              <th scope="col">Out</th>
              <th scope="col">Readings</th>
            </tr>
          </thead>
          <tbody>
            {view.loads.map((l) => (
              <tr key={l.id}>
                <td>
                  {l.lines.map((line) => `${line.name} × ${whole(line.pieces)}`).join(', ')}; {l.deckName ?? l.ovenName}
                </td>
                <td>{wallTime(l.inAt, zone)}</td>
                <td>{l.now.in ? '' : wallTime(l.now.outAt, zone)}</td>
                <td>
                  {l.readings
                    .map(
                      (r) =>
                        `${r.parameter} ${observedText(r)}${r.judgedBy ? `, ${limitText(r.judgedBy)}` : ''}: ${readingDoubt(r.doubt, zone) ?? official(`verdict.${r.verdict}`)}`,
                    )
                    .join('; ')}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </Section>
  );
}

function Batches({ night: { view, zone } }: { readonly night: Night }) {
  return (
    <Section title="Batches">
      {view.batches.length === 0 ? (
        <Empty>None.</Empty>
      ) : (
        <table className="lines">
          <thead>
            <tr>
              <th scope="col">Batch</th>
              <th scope="col">Code</th>
              <th scope="col" className="amount">
                Pieces
              </th>
              <th scope="col">Date</th>
              <th scope="col">Release</th>
            </tr>
          </thead>
          <tbody>
            {view.batches.map((b) => (
              <tr key={b.id}>
                <td>{b.name}</td>
                <td>{b.code}</td>
                <td className="amount">{whole(b.pieces)}</td>
                <td>{b.useBy ?? b.bestBefore ?? ''}</td>
                <td>
                  {b.release.state === 'released'
                    ? `${official(`release.${b.release.way}`)}, ${wallTime(b.release.at, zone)}`
                    : b.release.state === 'destroyed'
                      ? 'destroyed'
                      : 'not released'}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </Section>
  );
}
