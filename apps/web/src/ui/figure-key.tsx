import type { ReactNode } from 'react';

interface Props {
  readonly name: string;
  readonly figure: ReactNode;
  readonly pressed?: boolean;
  readonly onClick: () => void;
}

/** A figure with its name, to be tapped and then typed. */
export function FigureKey({ name, figure, pressed, onClick }: Props) {
  return (
    <button type="button" className="figure-key" aria-pressed={pressed} onClick={onClick}>
      <span>{name}</span>
      <b>{figure}</b>
    </button>
  );
}

/** Figures of which one is being typed on the pad beside them. */
export function FigureKeys({ children }: { readonly children: ReactNode }) {
  return (
    <div className="figure-keys" role="group" aria-label="What is being typed">
      {children}
    </div>
  );
}
