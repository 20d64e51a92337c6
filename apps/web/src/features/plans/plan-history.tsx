import { planWarnings, plansFor, plansInTurn, type Row } from '@bakehouse/records';
import type { PlanOverview } from '@bakehouse/contracts';
import { differences } from '@bakehouse/kernel';
import '../../shared/drafts/drafts.css';
import { Loosened } from '../../shared/loosened';
import { SignedWith } from '../../shared/plan-warnings';
import { useMaterialOrFormula } from '../../shared/plan-names';
import { PlanPoints } from '../../shared/plan-points';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Section } from '../../ui';
import { usePlanWords } from './words';

type Version = Row<'planVersion'>;
const textOf = ({ site, content }: Version) => ({ site, content });

/** Every version that was in force at this site, from when to when, with its points and what it changed; read without a network too. */
export function PlanHistory({ signers }: { readonly signers: PlanOverview['history'] }) {
  const nameOf = useMaterialOrFormula();
  const { snapshot, site } = useTabletState();
  const all = plansInTurn(plansFor(snapshot.planVersion, site.id)).reverse();
  if (all.length === 0) return null;
  return (
    <Section title="Every version that was in force here">
      <p>What was begun before a version keeps the one that it began with.</p>
      {all.map(({ plan: v, until }) => {
        const signed = signers.find((s) => s.id === v.id)?.signed;
        return (
          <details key={v.id} className="section">
            <summary>
              {v.content.name}, version {v.number}: {dayTime(v.since, site.zone)}{' '}
              {until === null ? 'until now' : `to ${dayTime(until, site.zone)}`}
            </summary>
            {signed ? <p>Signed by {signed.name ?? 'somebody'}.</p> : null}
            <Changes version={v} before={all.find(({ plan: other }) => other.series === v.series && other.number < v.number)?.plan} />
            <Loosened of={v.loosened} nameOf={nameOf} />
            <SignedWith warnings={planWarnings(v.content.points)} signedBy={signed?.name ?? null} />
            <PlanPoints plan={v} />
          </details>
        );
      })}
    </Section>
  );
}

function Changes({ version, before }: { readonly version: Version; readonly before: Version | undefined }) {
  const words = usePlanWords();
  if (!before) return null;
  const changes = differences(textOf(before), textOf(version));
  return (
    <>
      <h3>Changed from version {before.number}</h3>
      <ul className="to-do">
        {changes.length === 0 ? <li>nothing</li> : null}
        {changes.map((d) => (
          <li key={d.path.join(' ')}>{words.difference(d)}</li>
        ))}
      </ul>
    </>
  );
}
