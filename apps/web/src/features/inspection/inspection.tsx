import { validationText } from '@bakehouse/views';
import { Loosened } from '../../shared/loosened';
import { SignedWith } from '../../shared/plan-warnings';
import { PastLifeWords } from '../../shared/past-life';
import { paperOrder, type InspectionView } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import type { ReactNode } from 'react';
import { dayText, limitText, whole } from '../../shared/format';
import { Download } from '../../shared/download';
import { file } from '../../shared/file';
import { Deviations } from '../../shared/inspected/deviations';
import { DecidedFood, Waste } from '../../shared/inspected/food';
import { Recalls } from '../../shared/inspected/recalls';
import { OrderedPaper } from '../../shared/ordered-paper';
import { dayTime } from '../../shared/trace/words';
import { Button, Caution, Empty, Notice, Section } from '../../ui';
import { Checker } from './checker';
import { Checks } from './checks';
import { Corrections } from './corrections';
import { Batches, Loads, Makes } from './made';
import { Received } from './received';
import { Seals } from './seals';
import { Readings } from './readings';

/** More than this many stay folded until somebody opens them. */
const many = 12;

interface Props {
  readonly view: InspectionView;
  /** Shows another day, where it may be shown. */
  readonly onDay?: ((day: string) => (() => void) | null) | undefined;
}

/** Everything an officer is shown of a site and a period. */
export function Inspection({ view: v, onDay }: Props) {
  const { zone, id } = v.site;
  const period = { params: { path: { site: id }, query: { from: v.from, until: v.until } } };
  const name = `${v.from}-to-${v.until}`;
  return (
    <>
      <p>
        <strong>
          {v.business}, {v.site.name}
        </strong>
        , {v.from === v.until ? dayText(v.from) : `${dayText(v.from)} to ${dayText(v.until)}`}, as of {dayTime(v.asOf, zone)}
      </p>
      <LimitsFirst plans={v.plans} />
      <Overnight view={v} onDay={onDay} />
      <Counts c={v.counts} />
      <div className="buttons">
        <OrderedPaper
          order={(ask) => ask('get', '/sites/{site}/inspection/pack/order', paperOrder, period)}
          name={`pack-${name}.pdf`}
          text="All of it to print (PDF)"
          look="go"
        />
        <Download
          from={(ask) => ask('get', '/sites/{site}/inspection/bundle.json', file, { ...period, parseAs: 'blob' })}
          name={`records-${name}.json`}
          text="The sealed records"
        />
        <Checker />
      </div>
      <Section title="Recalls">
        <Recalls recalls={v.recalls} zone={zone} />
      </Section>
      <Section title="Deviations and corrective actions">
        <Deviations deviations={v.deviations} zone={zone} />
      </Section>
      <Food view={v} />
      <Section title="The plan in force">
        <Plans view={v} />
      </Section>
      <Fold title="Oven loads" n={v.loads.length}>
        <Loads loads={v.loads} zone={zone} />
      </Fold>
      <Fold title="Mixes" n={v.makes.length}>
        <Makes makes={v.makes} zone={zone} />
      </Fold>
      <Fold title="Other readings: fridges, freezers and the like" n={v.otherReadings.length}>
        {v.otherReadings.length === 0 ? <Empty>None in this time.</Empty> : <Readings readings={v.otherReadings} zone={zone} subject />}
      </Fold>
      <Fold title="What came in" n={v.deliveries.length}>
        <Received deliveries={v.deliveries} zone={zone} />
      </Fold>
      <Fold title="Batches" n={v.batches.length}>
        <Batches batches={v.batches} zone={zone} />
      </Fold>
      <Fold title="Checks, cleaning, holds" n={null}>
        <Checks checks={v.checks} zone={zone} />
      </Fold>
      <Fold title="Corrections" n={v.corrections.length}>
        {v.correctionsTruncated ? <p>There were more corrections than are listed here. Ask for a shorter time to see the rest.</p> : null}
        <Corrections corrections={v.corrections} zone={zone} />
      </Fold>
      <Section title="The seal">
        <Seals seals={v.seals} />
      </Section>
      <Caution />
    </>
  );
}

const Food = ({ view: { decisions, waste, site } }: Props) => (
  <>
    <Section title="Decided about food">
      <DecidedFood decisions={decisions} zone={site.zone} />
    </Section>
    <Section title="Thrown away">
      <Waste waste={waste} zone={site.zone} />
    </Section>
  </>
);

/** What was loosened, and what is below the usual: before anything that was judged by it. */
function LimitsFirst({ plans }: Pick<InspectionView, 'plans'>) {
  return [...plans]
    .reverse() // the newest is the one in force
    .filter((p) => p.loosened.length + p.warnings.length > 0)
    .map((p) => (
      <Section key={p.id} title={`Look at first: limits of ${p.name}, version ${p.number}`}>
        {p.loosened.length === 0 ? null : <p>Signed by {p.signedBy ?? 'somebody whose name is withheld'}.</p>}
        <Loosened of={p.loosened} />
        <SignedWith warnings={p.warnings} signedBy={p.signedBy} />
      </Section>
    ));
}

/** A night may begin before midnight: what of it is here although it was later, and on which day the rest of it is. */
function Overnight({ view: v, onDay }: Props) {
  const { goesOnUntil, begunBefore } = v.overnight;
  if (goesOnUntil === null && begunBefore.length === 0) return null;
  return (
    <Notice tone="calm" title="A night over the end of a day">
      {goesOnUntil === null ? null : <p>What was begun in this time is here whole, until {dayTime(goesOnUntil, v.site.zone)}.</p>}
      {begunBefore.map(({ day, makes }) => {
        const show = onDay?.(day);
        return (
          <div key={day}>
            <p>
              Begun on {dayText(day)} and gone on with here: {makes.join(', ')}. Of these, only what was done in this time is here.
            </p>
            {show ? (
              <div className="buttons">
                <Button onClick={show}>Show {dayText(day)}, where they are whole</Button>
              </div>
            ) : null}
          </div>
        );
      })}
    </Notice>
  );
}

function Fold({ title, n, children }: { readonly title: string; readonly n: number | null; readonly children: ReactNode }) {
  return (
    <section className="section">
      <details open={n !== null && n <= many}>
        <summary>
          <h2>
            {title}
            {n === null ? '' : `: ${whole(n)}`}
          </h2>
        </summary>
        {children}
      </details>
    </section>
  );
}

function Counts({ c }: { readonly c: InspectionView['counts'] }) {
  const figure = (value: number, of: string) => (
    <li key={of}>
      <b>{whole(value)}</b>
      <span>{of}</span>
    </li>
  );
  return (
    <ul className="figures">
      {figure(
        c.readings,
        `readings: ${whole(c.within)} within, ${whole(c.outside)} outside, ${whole(c.doubtful)} too close or not believable`,
      )}
      {figure(c.notTaken, 'not taken')}
      {figure(
        c.deviations,
        `deviations; ${whole(c.stillOpen)} still open${c.openFromBefore > 0 ? `, ${whole(c.openFromBefore)} from before` : ''}`,
      )}
      {figure(c.loads, `oven loads of ${whole(c.makes)} mixes`)}
      {figure(
        c.batches,
        `batches: ${whole(c.releasedByRule)} released by rule, ${whole(c.releasedByException)} by exception, ${whole(c.notReleased)} not`,
      )}
      {figure(c.lotsReceived, `lots came in, ${whole(c.lotsRefused)} refused`)}
      {figure(c.corrections, 'corrections')}
    </ul>
  );
}

function Plans({
  view: {
    plans,
    site: { zone },
  },
}: {
  readonly view: InspectionView;
}) {
  if (plans.length === 0) return <Empty>No plan had been approved here by the end of this time.</Empty>;
  return (
    <>
      {plans.map((p) => (
        <details key={p.id}>
          <summary>
            <span>
              <strong>{p.name}</strong>, version {p.number}, from {dayTime(p.from, zone)}
              {p.until === null ? '' : ` until ${dayTime(p.until, zone)}`}
              {p.signedBy === null ? '' : `, signed by ${p.signedBy}`}
            </span>
          </summary>
          <p>
            {p.scope} Team: {p.team}.{p.meaning === null ? '' : ` Signed: “${p.meaning}”.`}
          </p>
          <PastLifeWords of={p.pastLife} />
          <Loosened of={p.loosened} />
          <SignedWith warnings={p.warnings} signedBy={p.signedBy} />
          <table className="lines">
            <thead>
              <tr>
                <th scope="col">Control point</th>
                <th scope="col">Limit</th>
                <th scope="col">How often</th>
                <th scope="col">Corrective action</th>
                <th scope="col">Basis</th>
              </tr>
            </thead>
            <tbody>
              {p.points.map((pt) => (
                <tr key={pt.key}>
                  <td>
                    <span className={`class ${pt.class}`}>{phrase(`class.${pt.class}` as PhraseKey)}</span> {pt.name}
                    <br />
                    <span className="faint">{pt.hazard}</span>
                  </td>
                  <td>
                    {limitText(pt.limit)}
                    {pt.holdSeconds === null ? '' : `, held ${pt.holdSeconds} s`}
                  </td>
                  <td>{phrase(`frequency.${pt.frequency}` as PhraseKey)}</td>
                  <td>{pt.correctiveAction}</td>
                  <td>
                    {pt.basis} <strong>({validationText(pt.validated)})</strong>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      ))}
    </>
  );
}
