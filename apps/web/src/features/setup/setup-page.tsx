import { setup, type Setup } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { Link } from 'wouter';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { Caution, eitherOf, LinkButton, Mark, Screen } from '../../ui';
import { Bar } from './bar';
import { aboutPath, doneText, stepWords } from './words';
import './setup.css';

type Step = Setup['steps'][number];

/** From nothing to a first released batch: what there is, what is missing, who may do it, and where. */
export function SetupPage() {
  const { site } = useTabletState();
  const loaded = useLoaded('/sites/{site}/setup', setup, { params: { path: { site: site.id } } });
  return (
    <Screen title="Set-up" back={{ to: office.home, text: 'Office' }}>
      <Shown of={loaded}>
        {(found) => (
          <>
            <p className="setup-lead">
              From nothing to a first released batch at {found.site.name}: {doneText(found)}.
            </p>
            <Bar steps={found.steps} />
            {found.done ? <p>Everything that a first batch needs is there. This page stays, to look at.</p> : null}
            <ol className="setup-steps">
              {found.steps.map((step) => (
                <li key={step.step} className={step.done ? 'done' : step.step === found.next ? 'next' : ''}>
                  <StepShown step={step} next={step.step === found.next} />
                </li>
              ))}
            </ol>
            <p>
              Done says that something is there. It does not say that a limit is right or that food is safe.{' '}
              <Link href={office.starters}>Starter formulas and a starter plan, which nobody has approved</Link>
            </p>
          </>
        )}
      </Shown>
      <Caution />
    </Screen>
  );
}

function StepShown({ step, next }: { readonly step: Step; readonly next: boolean }) {
  const words = stepWords[step.step];
  return (
    <>
      <Mark shape={step.done ? 'disc' : 'ring'} tone={step.done ? 'good' : 'calm'} />
      <div className="setup-step">
        <h2>
          {words.title} <span className="setup-state">{step.done ? 'done' : next ? 'next' : 'missing'}</span>
        </h2>
        {step.has === null ? null : <p className="faint">{step.has}</p>}
        {step.done ? null : <Missing step={step} />}
      </div>
      <div className="setup-keys">
        {step.done
          ? null
          : (words.also ?? []).map(([to, text]) => (
              <LinkButton key={to} to={to} look={next ? 'plain' : 'quiet'}>
                {text}
              </LinkButton>
            ))}
        {step.done ? (
          <Link href={words.to}>{words.key}</Link>
        ) : (
          <LinkButton to={words.to} look={next ? 'go' : 'plain'}>
            {words.key}
          </LinkButton>
        )}
      </div>
    </>
  );
}

function Missing({ step }: { readonly step: Step }) {
  return (
    <>
      <ul className="setup-missing">
        {step.missing.map(({ says, about }) => (
          <li key={says}>{about === null ? says : <Link href={aboutPath(about)}>{says}</Link>}</li>
        ))}
        {step.more > 0 ? <li>and {step.more} more</li> : null}
      </ul>
      <p className="faint">{whoMay(step)}</p>
    </>
  );
}

/** Who may do it, by name where there is somebody. */
function whoMay({ roles, people }: Step): string {
  const may = eitherOf(roles.map((r) => phrase(`role.${r}`)));
  const named = people.slice(0, 4).map((p) => p.name ?? 'somebody whose name is withheld');
  const more = people.length - named.length;
  return `For: ${may}${people.length === 0 ? '. Nobody here is that yet, with a PIN' : `. Here: ${named.join(', ')}${more > 0 ? ` and ${more} more` : ''}`}.`;
}
