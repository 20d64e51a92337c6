import { caution, problems, type Refused } from '@bakehouse/kernel';
import type { ReactNode } from 'react';
import { Mark, type Shape, type Tone } from './mark';

const shapes: Readonly<Record<Tone, Shape>> = { good: 'disc', bad: 'diamond', ask: 'diamond', calm: 'ring' };

/** Something to be read now. Spoken when it appears. */
export function Notice({ tone, title, children }: { readonly tone: Tone; readonly title: ReactNode; readonly children?: ReactNode }) {
  return (
    <div className={`notice ${tone}`} role={tone === 'bad' ? 'alert' : 'status'}>
      <p className="notice-title">
        <Mark shape={shapes[tone]} tone={tone} />
        <span>{title}</span>
      </p>
      {children}
    </div>
  );
}

/** Why something was not taken, and what to do. What was typed stands as it was. */
export function Refusal({ refused }: { readonly refused: Refused }) {
  const { title, detail } = problems[refused.problem];
  return (
    <Notice tone="bad" title={title}>
      <p>{detail}</p>
      {refused.acceptable === undefined ? null : <p>Acceptable: {refused.acceptable}.</p>}
    </Notice>
  );
}

/** Stands wherever a limit or a critical verdict does. */
export function Caution() {
  return <p className="caution">{caution}</p>;
}

export function Empty({ children }: { readonly children: ReactNode }) {
  return <p className="empty">{children}</p>;
}
