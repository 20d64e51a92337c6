import { setup } from '@bakehouse/contracts';
import { Link } from 'wouter';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { useLoaded } from '../../shared/use-loaded';
import { LinkButton } from '../../ui';
import { Bar } from './bar';
import { doneText, stepWords } from './words';
import './setup.css';

/** Until the first batch is released: what comes next. A house that bakes has more urgent things on top, and a line about what is missing below. */
export function SetupOnHome() {
  const { site } = useTabletState();
  const { reply } = useLoaded('/sites/{site}/setup', setup, { params: { path: { site: site.id } } });
  if (reply?.as !== 'ok') return null;
  const { next, steps } = reply.value;
  const step = steps.find((s) => s.step === next);
  if (!step || steps.some((s) => s.step === 'release' && s.done)) return null;
  const [first] = step.missing;
  return (
    <section className="setup-home" aria-labelledby="setup-home">
      <h2 id="setup-home">Set-up: {doneText(reply.value)}</h2>
      <Bar steps={steps} />
      <p>
        Next: <strong>{stepWords[step.step].title}</strong>
        {first ? `. Missing: ${first.says}` : ''}
        {step.missing.length > 1 ? `, and ${step.missing.length - 1 + step.more} more` : ''}.
      </p>
      <div className="buttons">
        <LinkButton to={office.setup} look="go">
          Set-up
        </LinkButton>
      </div>
    </section>
  );
}

/** What is left of it once all is done. */
export const SetupLink = () => (
  <p className="setup-left">
    <Link href={office.setup}>Set-up: what this house has</Link>
  </p>
);
