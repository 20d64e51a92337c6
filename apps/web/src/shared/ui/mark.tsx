import type { Verdict } from '@bakehouse/records';
import { verdictText, type JudgedValue } from './verdict-text';

export type Shape = 'disc' | 'triangle' | 'diamond' | 'square' | 'ring' | 'bar';

const paths: Readonly<Record<Shape, string>> = {
  disc: 'M12 2a10 10 0 1 0 0 20 10 10 0 0 0 0-20z',
  triangle: 'M12 1.5 23 21.5H1z',
  diamond: 'M12 1 23 12 12 23 1 12z',
  square: 'M3 3h18v18H3z',
  ring: 'M12 2a10 10 0 1 0 0 20 10 10 0 0 0 0-20zm0 4a6 6 0 1 1 0 12 6 6 0 0 1 0-12z',
  bar: 'M2 9h20v6H2z',
};
const signs: Readonly<Partial<Record<Shape, string>>> = {
  disc: 'M7 12.5l3.5 3.5L17 8.5',
  triangle: 'M12 9v6M12 18v.5',
  diamond: 'M9.5 9.5a2.5 2.5 0 1 1 2.5 3v1.5M12 17v.5',
  square: 'M8 8l8 8M16 8l-8 8',
};

/** A state has a shape and a word, and only then a colour. The word stands beside it, so the shape is silent to a screen reader. */
export function Mark({ shape, tone }: { readonly shape: Shape; readonly tone: Tone }) {
  const sign = signs[shape];
  return (
    <svg className={`mark ${tone}`} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path d={paths[shape]} fill="currentColor" fillRule="evenodd" />
      {sign === undefined ? null : (
        <path d={sign} fill="none" stroke="var(--paper)" strokeWidth="2.4" strokeLinecap="round" strokeLinejoin="round" />
      )}
    </svg>
  );
}

export type Tone = 'good' | 'bad' | 'ask' | 'calm';

const marks: Readonly<Record<Verdict, { readonly shape: Shape; readonly tone: Tone }>> = {
  within: { shape: 'disc', tone: 'good' },
  outside: { shape: 'triangle', tone: 'bad' },
  unsure: { shape: 'diamond', tone: 'ask' },
  'not-believable': { shape: 'square', tone: 'ask' },
  'no-limit': { shape: 'ring', tone: 'calm' },
};

interface VerdictProps {
  readonly verdict: Verdict;
  readonly value?: JudgedValue;
  /** Why the reading cannot be trusted, in words: then its verdict says nothing. Null where it can; everybody who shows a verdict has to ask. */
  readonly doubt: string | null;
}

export function VerdictMark({ verdict, value, doubt }: VerdictProps) {
  const { shape, tone } = marks[doubt === null ? verdict : 'unsure'];
  return (
    <span className="state">
      <Mark shape={shape} tone={tone} />
      <span>{doubt ?? verdictText(verdict, value)}</span>
    </span>
  );
}

export const toneOf = (verdict: Verdict): Tone => marks[verdict].tone;

export function StateWord({ shape, tone, children }: { readonly shape: Shape; readonly tone: Tone; readonly children: string }) {
  return (
    <span className="state">
      <Mark shape={shape} tone={tone} />
      <span>{children}</span>
    </span>
  );
}
