import type { Row } from '@bakehouse/records';
import { differences } from '@bakehouse/kernel';
import { Link } from 'wouter';
import { office } from '../../shared/office-paths';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Section } from '../../ui';
import '../../shared/drafts/drafts.css';
import { choicesOf } from './choices';
import { differenceWords } from './places';

type Version = Row<'formulaVersion'>;
const textOf = ({ name, type, content }: Version) => ({ name, type, content });

/** Every version of a formula with since when it is in force, and what the shown one changed of the one before it. */
export function FormulaVersions({ version }: { readonly version: Version }) {
  const { snapshot, site } = useTabletState();
  const choices = choicesOf(snapshot, useNow(60_000));
  const all = snapshot.formulaVersion.filter((v) => v.formula === version.formula).sort((a, b) => b.number - a.number);
  const before = all.find((v) => v.number < version.number);
  const changes = before ? differences(textOf(before), textOf(version)) : [];
  return (
    <Section title="Versions">
      {before ? (
        <>
          <h3>Changed from version {before.number}</h3>
          <ul className="to-do">
            {changes.length === 0 ? <li>nothing</li> : null}
            {changes.map((d) => (
              <li key={d.path.join(' ')}>{differenceWords(d, choices)}</li>
            ))}
          </ul>
        </>
      ) : null}
      {version.loosened.length === 0 ? null : (
        <>
          <h3>What it lets through that the version before did not</h3>
          <ul className="to-do">
            {version.loosened.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </>
      )}
      {version.note === null ? null : <p>Noted when it was approved: {version.note}</p>}
      <ul className="rows">
        {all.map((v, i) => (
          <li key={v.id}>
            <Link href={office.formula(v.id)} className="row" aria-current={v.id === version.id ? 'page' : undefined}>
              <span className="row-main">
                <strong>
                  {v.name}, version {v.number}
                </strong>
                {v.id === version.id ? ', shown here' : ''}
              </span>
              <span className="row-side">{fromTo(v.since, all[i - 1]?.since, site.zone)}</span>
            </Link>
          </li>
        ))}
      </ul>
      <p className="faint">What was begun before a version keeps the one that it began with.</p>
    </Section>
  );
}

const fromTo = (from: string, to: string | undefined, zone: string): string =>
  to === undefined ? `since ${dayTime(from, zone)}` : `${dayTime(from, zone)} to ${dayTime(to, zone)}`;
