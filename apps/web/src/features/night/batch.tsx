import { phrase, type Finding } from '@bakehouse/domain';
import { useState } from 'react';
import { Link } from 'wouter';
import { dayText, wallTime, whole } from '../../shared/format';
import { Button, Caution, Empty, Field, LinkButton, Notice, Screen, Section } from '../../shared/ui';
import { BatchState } from './batch-state';
import { paths, subjectPath } from './paths';
import { SignButton } from '../../shared/sign-button';
import { useAct } from '../../shared/use-act';
import { useNight } from './use-night';

/** A batch: whether it may leave, and if not, why not and what helps. */
export function Batch({ id }: { readonly id: string }) {
  const { view, zone, look } = useNight();
  const { act, busy, trouble } = useAct();
  const [why, setWhy] = useState('');
  const b = view.batches.find((one) => one.id === id);
  const back = { to: paths.today, text: 'Today’s bake' };
  if (!b)
    return (
      <Screen title="Batch" back={back}>
        <Empty>This batch is not in today’s bake.</Empty>
      </Screen>
    );
  const { release } = b;
  const findings = release.state === 'waits' ? release.findings : release.state === 'released' ? release.since : [];
  const subjectSort = (f: Finding): string =>
    look.state.get('load', f.subject)
      ? 'load'
      : look.state.get('make', f.subject)
        ? 'make'
        : look.state.get('run', f.subject)
          ? 'run'
          : 'batch';
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
            Let it go
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
      {release.state === 'released' ? (
        <p className="faint">
          {phrase(`release.${release.way}`)}, {wallTime(release.at, zone)}
        </p>
      ) : null}
      {findings.length === 0 ? null : (
        <Section title={release.state === 'waits' ? 'It waits for this' : 'Found since it left'}>
          <ul className="rows">
            {findings.map((f, i) => (
              <li key={`${f.code} ${f.subject} ${i}`}>
                <Link href={f.deviation === null ? subjectPath(subjectSort(f), f.subject) : paths.deviation(f.deviation)} className="row">
                  <span className="row-main">
                    <strong>{phrase(`finding.${f.code}`)}</strong>
                    {f.what === null ? '' : `: ${f.what}`}
                  </span>
                </Link>
              </li>
            ))}
          </ul>
        </Section>
      )}
      {release.state === 'waits' ? (
        <details>
          <summary>Let it go all the same, signed with a PIN by whoever may</summary>
          <Notice tone="ask" title="Only with a reason that would stand before an officer">
            <Field label="Why it may go all the same" value={why} onChange={setWhy} lines={2} maxLength={400} />
          </Notice>
          <SignButton
            text="Sign and let it go"
            draft={{ kind: 'released-by-exception', payload: { batch: id }, words: { why } }}
            disabled={why.trim() === ''}
          />
        </details>
      ) : null}
      <div className="buttons">
        <LinkButton to={paths.wrong('batch', id)}>Something went wrong</LinkButton>
      </div>
      <Caution />
    </Screen>
  );
}
