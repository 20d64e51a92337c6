import { phrase, type Finding } from '@bakehouse/records';
import { useState } from 'react';
import { Link } from 'wouter';
import { dayText, wallTime, whole } from '../../shared/format';
import { Button, Caution, Field, LinkButton, Notice, Screen, Section } from '../../shared/ui';
import { BatchState } from './batch-state';
import { paths, subjectPath } from '../../shared/night/paths';
import { SignButton } from '../../shared/sign-button';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { NotHere } from '../../shared/night/not-here';

/** A batch: whether it is released, and if not, why not and what helps. */
export function Batch({ id }: { readonly id: string }) {
  const { view, zone } = useNight();
  const { act, busy, trouble } = useAct();
  const b = view.batches.find((one) => one.id === id);
  const back = { to: paths.today, text: 'Today’s bake' };
  if (!b) return <NotHere title="Batch" back={back} what="batch" />;
  const { release } = b;
  const findings = release.state === 'waits' ? release.findings : release.state === 'released' ? release.since : [];
  return (
    <Screen
      title={`${b.name} × ${whole(b.pieces)}`}
      back={back}
      actions={
        release.state === 'may-go' ? (
          <Button
            look="go"
            disabled={busy}
            onClick={() => {
              void act({ kind: 'released-by-rule', payload: { batch: id } });
            }}
          >
            Release
          </Button>
        ) : null
      }
    >
      {trouble}
      <p className="sum">
        <BatchState b={b} />
      </p>
      <p>
        Code <strong>{b.code}</strong>
        {b.useBy === null ? '' : ` · use by ${dayText(b.useBy)}`}
        {b.bestBefore === null ? '' : ` · best before ${dayText(b.bestBefore)}`} · counted {wallTime(b.at, zone)}
        {b.rejects === 0 ? '' : ` · ${whole(b.rejects)} rejected`}
      </p>
      {release.state === 'released' && release.since.length > 0 ? (
        <p className="faint">
          {phrase(`release.${release.way}`)}, {wallTime(release.at, zone)}
        </p>
      ) : null}
      <Findings title={release.state === 'waits' ? 'It waits for this' : 'Found since it was released'} findings={findings} />
      {release.state === 'waits' ? <ByException batch={id} /> : null}
      <div className="buttons">
        <LinkButton to={paths.report('batch', id)}>Report a deviation</LinkButton>
      </div>
      <Caution />
    </Screen>
  );
}

function Findings({ title, findings }: { readonly title: string; readonly findings: readonly Finding[] }) {
  const { lookup } = useNight();
  if (findings.length === 0) return null;
  const to = (f: Finding): string => {
    if (f.deviation !== null) return paths.deviation(f.deviation);
    const type = (['load', 'make', 'run'] as const).find((one) => lookup.state.get(one, f.subject));
    return subjectPath(type ?? 'batch', f.subject);
  };
  return (
    <Section title={title}>
      <ul className="rows">
        {findings.map((f, i) => (
          <li key={`${f.code} ${f.subject} ${i}`}>
            <Link href={to(f)} className="row">
              <span className="row-main">
                <strong>{phrase(`finding.${f.code}`)}</strong>
                {f.what === null ? '' : `: ${f.what}`}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  );
}

function ByException({ batch }: { readonly batch: string }) {
  const [why, setWhy] = useState('');
  return (
    <details>
      <summary>Release by exception, signed with a PIN</summary>
      <Notice tone="ask" title="Only with a reason that would stand before an officer">
        <Field label="Reason for the exception" value={why} onChange={setWhy} lines={2} maxLength={400} />
      </Notice>
      <SignButton
        text="Sign and release by exception"
        draft={{ kind: 'released-by-exception', payload: { batch }, words: { why } }}
        disabled={why.trim() === ''}
      />
    </details>
  );
}
