import { phrase, type PhraseKey, type Row } from '@bakehouse/records';
import { limitText } from './format';
import { Caution } from '../ui';

type Content = Row<'planVersion'>['content'];

/** A plan's control points: the limit, its basis, and what is done when it is not met. */
export function PlanPoints({ content }: { readonly content: Content }) {
  return (
    <>
      <p>
        <strong>What it covers:</strong> {content.scope} <strong>Who made it:</strong> {content.team}
      </p>
      <ul className="cards">
        {content.points.map((p) => (
          <li key={p.key} className="card">
            <h3>{p.name}</h3>
            <p>
              <span className={`class ${p.class}`}>{phrase(`class.${p.class}`)}</span>
            </p>
            <p className="sum">
              {limitText(p.limit)}
              {p.holdSeconds === null ? '' : `, held ${p.holdSeconds} s`}
            </p>
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
              <dt>Basis (validation)</dt>
              <dd>{p.basis}</dd>
            </dl>
          </li>
        ))}
      </ul>
      <Caution />
    </>
  );
}
