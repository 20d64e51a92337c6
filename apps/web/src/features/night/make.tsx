import { observedText } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { takenBeyond, type DueView, type MakeView } from '@bakehouse/views';
import { Link } from 'wouter';
import { mass, limitText, wallTime, whole } from '../../shared/format';
import { Caution, Empty, For, LinkButton, RowLink, Screen, Section, StateWord, VerdictMark } from '../../ui';
import { codeText } from '../../shared/night/code-text';
import { MixedFacts } from './mixed-facts';
import { CorrectIt } from './correct-it';
import { paths } from '../../shared/night/paths';
import { Stages } from './stages';
import { useNight, type Night } from '../../shared/night/use-night';
import { readingDoubt } from '../../shared/reading-doubt';
import { judgedValue } from '../../ui/verdict-text';
import { Concerns } from '../../shared/concerns';
import { HoldLot } from '../../shared/hold-lot';
import { EndMake } from './end-make';
import { NotHere } from '../../shared/night/not-here';

/** One make: what to do with it next, and everything that is known of it. */
export function Make({ id }: { readonly id: string }) {
  const night = useNight();
  const make = night.view.makes.find((m) => m.id === id);
  const back = { to: paths.today, text: 'Today’s bake' };
  if (!make) return <NotHere title="Mix" back={back} what="mix" />;
  const version = night.state.rows.get('formulaVersion', make.formulaVersion);
  const hasProducts = (version?.content.products.length ?? 0) > 0;
  const due = night.view.due.filter((d) => d.subject === id);
  return (
    <Screen title={make.name} back={back} actions={<Next make={make} hasProducts={hasProducts} />}>
      <p className="faint">
        Begun {wallTime(make.at, night.zone)}
        {make.stationName === null ? '' : ` at ${make.stationName}`}, {mass(make.plannedMg)} planned
      </p>
      <Concerns concerns={make.concerns} lot={id} />
      {due.length === 0 ? null : (
        <Section title="Readings">
          <ul className="rows">
            {due.map((d) => (
              <Due key={d.key} d={d} />
            ))}
          </ul>
        </Section>
      )}
      <Readings make={make} night={night} />
      <Section title="What went in">
        {make.lines.length === 0 ? <Empty>Nothing weighed in yet.</Empty> : <Lines make={make} />}
        <div className="buttons">
          <LinkButton to={paths.weigh(id)}>{make.lines.length === 0 ? 'Weigh in' : 'Add or adjust'}</LinkButton>
        </div>
      </Section>
      {make.mixed ? (
        <Section title="Mixed">
          <MixedFacts mixed={make.mixed} />
        </Section>
      ) : null}
      <Section title="Rest, fold, prove, retard">
        <Stages subjectType="make" subject={id} stages={make.stages} />
      </Section>
      {make.divided ? (
        <Section title="Made up">
          <Divided make={make} />
        </Section>
      ) : null}
      {make.divided || make.ended || hasProducts ? null : (
        <For needs="record">
          <Section title="Finished?">
            <EndMake make={make} />
          </Section>
        </For>
      )}
      <div className="buttons">
        <LinkButton to={paths.report('make', id)}>Report a deviation</LinkButton>
        <CorrectIt entry={id} />
        <HoldLot lot={id} name={make.name} />
      </div>
      <Caution />
    </Screen>
  );
}

/** The one step that usually comes next, first. */
function Next({ make, hasProducts }: { readonly make: MakeView; readonly hasProducts: boolean }) {
  const steps = [
    {
      done: make.lines.length > 0,
      link: (
        <LinkButton key="w" to={paths.weigh(make.id)} look="go">
          Weigh in
        </LinkButton>
      ),
    },
    {
      done: make.mixed !== null,
      link: (
        <LinkButton key="m" to={paths.mixed(make.id)} look="go">
          Mixed
        </LinkButton>
      ),
    },
    {
      done: make.divided !== null || !hasProducts,
      link: (
        <LinkButton key="d" to={paths.makeUp(make.id)} look="go">
          Make up into products
        </LinkButton>
      ),
    },
    {
      done: !hasProducts || make.runs.every((r) => r.loaded >= r.pieces),
      link: (
        <LinkButton key="o" to={paths.loadNew} look="go">
          Into the oven
        </LinkButton>
      ),
    },
  ];
  return (
    <>
      {steps.find((s) => !s.done)?.link ?? null}
      {make.mixed === null && make.lines.length === 0 ? <LinkButton to={paths.mixed(make.id)}>Mixed</LinkButton> : null}
    </>
  );
}

function Due({ d }: { readonly d: DueView }) {
  return (
    <li>
      <RowLink to={paths.read(d.subjectType, d.subject, d.point)}>
        <span className={`class ${d.class}`}>{phrase(`class.${d.class}`)}</span>
        <span className="row-main">
          {d.parameter}, {limitText(d.limit)}
        </span>
      </RowLink>
    </li>
  );
}

export function Readings({ make, night }: { readonly make: Pick<MakeView, 'readings'>; readonly night: Night }) {
  if (make.readings.length === 0) return null;
  return (
    <ul className="rows">
      {make.readings.map((r) => (
        <li key={r.id} className="row">
          <VerdictMark
            verdict={r.verdict}
            of={r.class}
            value={judgedValue(r.figure, r.unit, r.judgedBy)}
            doubt={readingDoubt(r.doubt, night.zone)}
          />
          <span className="row-main">
            {r.parameter} {observedText(r)}
            {r.judgedBy ? `, ${limitText(r.judgedBy)}` : ''}
            {r.corrected ? ' · corrected' : ''}
          </span>
          <span className="row-side">{wallTime(r.at, night.zone)}</span>
        </li>
      ))}
    </ul>
  );
}

function Lines({ make }: { readonly make: MakeView }) {
  return (
    <table className="lines">
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col" className="amount">
            How much
          </th>
          <th scope="col">How known</th>
          <th scope="col">Lot</th>
        </tr>
      </thead>
      <tbody>
        {make.lines.map((l, i) => (
          <tr key={`${l.lot} ${i}`}>
            <td>
              {l.name}
              {l.type === 'ingredient' ? '' : `, ${phrase(`flow.${l.type}`)}`}
            </td>
            <td className="amount">{mass(l.mg)}</td>
            <td>{phrase(`how.${l.how}`)}</td>
            <td>
              {l.orCodes.length === 0 ? codeText(l.code) : `any of ${[l.code, ...l.orCodes].map(codeText).join(', ')}`}{' '}
              <Beyond lot={l.lot} />
            </td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <td>In all</td>
          <td className="amount">{mass(make.inMg)}</td>
          <td />
          <td />
        </tr>
      </tfoot>
    </table>
  );
}

/** That more was taken of a lot than there was: some of it came from another, or it was never counted right. */
function Beyond({ lot }: { readonly lot: string }) {
  const { lookup } = useNight();
  const mg = takenBeyond(lookup, lot);
  return mg === null ? null : (
    <StateWord shape="diamond" tone="ask">
      {`${mass(mg)} more taken of it than there was: put the lot right, or count it`}
    </StateWord>
  );
}

function Divided({ make: { divided, runs } }: { readonly make: MakeView }) {
  if (!divided) return null;
  return (
    <>
      <ul className="cards">
        {runs.map((r) => (
          <li className="card" key={r.id}>
            <Link href={paths.run(r.id)} className="card-link">
              <strong>
                {r.name} × {whole(r.pieces)}
              </strong>
              <span>
                {mass(r.scalingMg)} each · {whole(r.loaded)} of {whole(r.pieces)} baked
              </span>
            </Link>
          </li>
        ))}
      </ul>
      <p className="sum">
        Products {mass(divided.runsMg)} + old dough {mass(divided.oldDoughMg)} + scrap {mass(divided.scrapMg)};{' '}
        {divided.differenceMg === 0
          ? 'it sums'
          : divided.differenceMg === null
            ? 'what went in is not known'
            : divided.differenceMg > 0
              ? `${mass(divided.differenceMg)} unaccounted`
              : `${mass(-divided.differenceMg)} more than went in`}
      </p>
    </>
  );
}
