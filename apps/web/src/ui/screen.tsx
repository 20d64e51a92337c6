import { useEffect, useRef, type ReactNode } from 'react';
import { Link } from 'wouter';

interface Props {
  readonly title: string;
  readonly back?: { readonly to: string; readonly text: string };
  readonly actions?: ReactNode;
  readonly children: ReactNode;
}

/** One screen: its heading takes the focus when it opens, so that a keyboard and a reader begin there. */
export function Screen({ title, back, actions, children }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · Bakehouse Ledger`;
    if (!document.activeElement || document.activeElement === document.body) heading.current?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }, [title]);
  return (
    <main className="screen">
      <header className="screen-head">
        {back === undefined ? null : (
          <Link href={back.to} className="back">
            ‹ {back.text}
          </Link>
        )}
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {actions === undefined ? null : <div className="screen-actions">{actions}</div>}
      </header>
      {children}
    </main>
  );
}

export function Section({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <section className="section">
      <h2>{title}</h2>
      {children}
    </section>
  );
}
