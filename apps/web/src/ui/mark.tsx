import type { PointContent, Verdict } from '@bakehouse/records';
import { icons } from './icons';
import { verdictText, type JudgedValue } from './verdict-text';

/**
 * disc: as it must be. triangle: outside a critical limit, and nothing else. diamond: somebody has to look at it. again: probe again.
 * broken: a value that cannot be right. gate: on hold. handset: contact first. full, part, unknown, empty: what the counter answers.
 * ring, bar: neither good nor bad.
 */
export type Shape =
  'disc' | 'triangle' | 'diamond' | 'again' | 'broken' | 'gate' | 'handset' | 'full' | 'part' | 'unknown' | 'empty' | 'ring' | 'bar';
export type Tone = 'good' | 'bad' | 'ask' | 'calm';

/** Filled shapes, with the sign that is cut out of them. */
const filled: Readonly<Partial<Record<Shape, readonly [shape: string, cut?: string]>>> = {
  disc: ['M12 2a10 10 0 1 0 0 20 10 10 0 0 0 0-20z', 'M7 12.5l3.5 3.5L17 8.5'],
  triangle: ['M12 2 23 21.5H1z', 'M12 9v6M12 18v.5'],
  diamond: ['M12 1 23 12 12 23 1 12z', 'M12 7v6M12 16.500v.5'],
  full: ['M3 3h18v18H3z'],
  bar: ['M2 9.500h20v5H2z'],
};
const drawn: Readonly<Partial<Record<Shape, readonly string[]>>> = {
  again: ['M14.5 4.5 12 2 2 12l10 10 10-10-4.5-4.5'],
  ring: ['M12 3.500a8.5 8.5 0 1 0 0 17 8.5 8.5 0 0 0 0-17z'],
  part: ['M4 4h16v16H4z', 'M4 20 20 4', 'M4 12l8-8', 'M12 20l8-8'],
  unknown: ['M4 4h4M12 4h4M20 4v4M20 12v4M20 20h-4M12 20H8M4 20v-4M4 12V8', 'M10 10a2.2 2.2 0 1 1 2.2 2.500v1.200M12.2 16.800v.2'],
  empty: ['M4 4h16v16H4z'],
  broken: icons.broken,
  gate: icons.gate,
  handset: icons.handset,
};

/** A state has a shape and a word, and only then a colour. The word stands beside it, so the shape is silent to a screen reader. */
export function Mark({ shape, tone }: { readonly shape: Shape; readonly tone: Tone }) {
  const solid = filled[shape];
  return (
    <svg className={`mark ${tone}`} viewBox="0 0 24 24" aria-hidden="true" focusable="false" fill="none">
      {solid ? <path d={solid[0]} fill="currentColor" /> : null}
      {solid?.[1] === undefined ? null : (
        <path d={solid[1]} stroke="var(--card)" strokeWidth="2.4" strokeLinecap="round" strokeLinejoin="round" />
      )}
      {(drawn[shape] ?? []).map((d) => (
        <path key={d} d={d} stroke="currentColor" strokeWidth="2.2" strokeLinecap="round" strokeLinejoin="round" />
      ))}
    </svg>
  );
}

const marks: Readonly<Record<Verdict, { readonly shape: Shape; readonly tone: Tone }>> = {
  within: { shape: 'disc', tone: 'good' },
  outside: { shape: 'triangle', tone: 'bad' },
  unsure: { shape: 'again', tone: 'ask' },
  'not-believable': { shape: 'broken', tone: 'ask' },
  'no-limit': { shape: 'ring', tone: 'calm' },
};

interface VerdictProps {
  readonly verdict: Verdict;
  /** What its control point weighs; null where it was read for none. Left out where only critical ones are shown. */
  readonly of?: PointContent['class'] | null;
  readonly value?: JudgedValue;
  /** Why the reading cannot be trusted, in words: then its verdict says nothing. Null where it can; everybody who shows a verdict has to ask. */
  readonly doubt: string | null;
}

export function VerdictMark({ verdict, of = 'ccp', value, doubt }: VerdictProps) {
  const { shape, tone } = markOf(doubt === null ? verdict : 'unsure', of);
  return (
    <span className={`state ${tone}`}>
      <Mark shape={shape} tone={tone} />
      <span>{doubt ?? verdictText(verdict, value)}</span>
    </span>
  );
}

/** The triangle, and red with it, is for a critical limit alone: what is outside another one is looked at, and does not shout. */
export const markOf = (verdict: Verdict, of: PointContent['class'] | null): { readonly shape: Shape; readonly tone: Tone } =>
  verdict === 'outside' && of !== 'ccp' ? { shape: 'diamond', tone: 'ask' } : marks[verdict];

export function StateWord({ shape, tone, children }: { readonly shape: Shape; readonly tone: Tone; readonly children: string }) {
  return (
    <span className={`state ${tone}`}>
      <Mark shape={shape} tone={tone} />
      <span>{children}</span>
    </span>
  );
}
