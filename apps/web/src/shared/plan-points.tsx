import { phrase, validationOf, type PhraseKey, type Row, type Validation } from '@bakehouse/records';
import { validationText } from '@bakehouse/views';
import { limitText } from './format';
import { PastLifeWords } from './past-life';
import { Caution } from '../ui';

type Plan = Pick<Row<'planVersion'>, 'content' | 'loosened'>;
type Content = Plan['content'];
export type PlanPoint = Content['points'][number];

/** A plan's control points: the limit, its basis, and what is done when it is not met. */
export function PlanPoints({ plan }: { readonly plan: Plan }) {
  const { content } = plan;
  return (
    <>
      <PlanScope content={content} />
      <ul className="cards">
        {content.points.map((p) => (
          <li key={p.key} className="card">
            <h3>{p.name}</h3>
            <PointWords p={p} validation={validationOf(plan, p)} />
          </li>
        ))}
      </ul>
      <Caution />
    </>
  );
}

export const PlanScope = ({ content }: { readonly content: Content }) => (
  <>
    <p>
      <strong>What it covers:</strong> {content.scope} <strong>Who made it:</strong> {content.team}
    </p>
    <PastLifeWords of={content.pastLife} />
  </>
);

/** A point's limit, with how long it is held. */
export const pointLimitText = (p: PlanPoint): string => `${limitText(p.limit)}${p.holdSeconds === null ? '' : `, held ${p.holdSeconds} s`}`;

/** One control point: its class and limit, how it is measured, and what follows when it is not met or not monitored. */
export function PointWords({ p, validation }: { readonly p: PlanPoint; readonly validation: Validation | null }) {
  return (
    <>
      <p>
        <span className={`class ${p.class}`}>{phrase(`class.${p.class}`)}</span>
      </p>
      <p className="sum">{pointLimitText(p)}</p>
      <dl className="words">
        <dt>Measured</dt>
        <dd>
          {p.parameter}, {phrase(`measured.${p.measured}`)}; {phrase(`frequency.${p.frequency}`)}
        </dd>
        <dt>Hazard</dt>
        <dd>{p.hazard}</dd>
        <dt>If outside</dt>
        <dd>
          {phrase(`ifOutside.${p.ifOutside}` as PhraseKey)}. {p.correctiveAction}
        </dd>
        <dt>If not monitored</dt>
        <dd>{phrase(`ifNotMonitored.${p.ifNotMonitored}` as PhraseKey)}</dd>
        <dt>Basis</dt>
        <dd>
          {p.basis === '' ? 'not stated' : p.basis} <strong>({validationText(validation)})</strong>
        </dd>
      </dl>
    </>
  );
}
