import type { ReactNode } from 'react';
import { Link } from 'wouter';

interface Props {
  readonly children: ReactNode;
  readonly onClick?: (() => void) | undefined;
  /** go: the one thing to do here. plain: anything else. quiet: a way out. grave: stops or throws away. */
  readonly look?: 'go' | 'plain' | 'quiet' | 'grave';
  readonly disabled?: boolean;
  readonly label?: string;
  readonly submit?: boolean;
}

export function Button({ children, onClick, look = 'plain', disabled = false, label, submit = false }: Props) {
  return (
    <button type={submit ? 'submit' : 'button'} className={`button ${look}`} onClick={onClick} disabled={disabled} aria-label={label}>
      {children}
    </button>
  );
}

/** The same look for going somewhere. */
export function LinkButton({
  to,
  children,
  look = 'plain',
}: {
  readonly to: string;
  readonly children: ReactNode;
  readonly look?: Props['look'];
}) {
  return (
    <Link href={to} className={`button ${look ?? 'plain'}`}>
      {children}
    </Link>
  );
}
