import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useMayGo } from './offered';

interface Props {
  readonly title: ReactNode;
  readonly detail?: ReactNode;
  readonly mark?: ReactNode;
  readonly to?: string;
  readonly onClick?: () => void;
  readonly disabled?: boolean;
}

/** Something large to tap: a name, a formula, a load. */
export function Tile({ title, detail, mark, to, onClick, disabled = false }: Props) {
  const inside = (
    <>
      {mark}
      <span className="tile-title">{title}</span>
      {detail === undefined ? null : <span className="tile-detail">{detail}</span>}
    </>
  );
  const offered = useMayGo(to ?? '');
  if (!offered) return null;
  return to === undefined ? (
    <button type="button" className="tile" onClick={onClick} disabled={disabled}>
      {inside}
    </button>
  ) : (
    <Link href={to} className="tile">
      {inside}
    </Link>
  );
}

export function Tiles({ children, label }: { readonly children: ReactNode; readonly label?: string }) {
  return (
    <div className="tiles" role="group" aria-label={label}>
      {children}
    </div>
  );
}
