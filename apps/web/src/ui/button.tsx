import type { Permission } from '@bakehouse/kernel';
import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useMay, useMayGo } from './offered';

interface Props {
  readonly children: ReactNode;
  readonly onClick?: (() => void) | undefined;
  /** go: the one thing to do here. plain: anything else. quiet: a way out. grave: stops or throws away. */
  readonly look?: 'go' | 'plain' | 'quiet' | 'grave';
  readonly disabled?: boolean;
  readonly label?: string;
  readonly submit?: boolean;
  /** Offered to those alone who may do this. */
  readonly needs?: Permission;
}

export function Button({ children, onClick, look = 'plain', disabled = false, label, submit = false, needs }: Props) {
  return useMay(needs) ? (
    <button type={submit ? 'submit' : 'button'} className={`button ${look}`} onClick={onClick} disabled={disabled} aria-label={label}>
      {children}
    </button>
  ) : null;
}

/** The same look for going somewhere, where what is done there is for the person. */
export function LinkButton({
  to,
  children,
  look = 'plain',
}: {
  readonly to: string;
  readonly children: ReactNode;
  readonly look?: Props['look'];
}) {
  return useMayGo(to) ? (
    <Link href={to} className={`button ${look ?? 'plain'}`}>
      {children}
    </Link>
  ) : null;
}

/** A row that leads somewhere; where what is done there is not for the person, the same row to read. */
export function RowLink({ to, children }: { readonly to: string; readonly children: ReactNode }) {
  return useMayGo(to) ? (
    <Link href={to} className="row">
      {children}
    </Link>
  ) : (
    <div className="row">{children}</div>
  );
}

/** A row that asks for something; the same row to read for those who may not. */
export function RowButton({
  needs,
  onClick,
  children,
}: {
  readonly needs: Permission;
  readonly onClick: () => void;
  readonly children: ReactNode;
}) {
  return useMay(needs) ? (
    <button type="button" className="row" onClick={onClick}>
      {children}
    </button>
  ) : (
    <div className="row">{children}</div>
  );
}
