import { useEffect, useRef, type ReactNode } from 'react';
import { Link } from 'wouter';

interface Props {
  readonly title: string;
  readonly back?: { readonly to: string; readonly text: string };
  readonly actions?: ReactNode;
  /** The heading as it is drawn, where that is more than its words; what stands above it, and beside it. */
  readonly heading?: ReactNode;
  readonly above?: string;
  readonly beside?: ReactNode;
  /** As wide as the desk's display: for what is a table and a picture. */
  readonly wide?: boolean;
  readonly children: ReactNode;
}

/** One screen: its heading takes the focus when it opens, so that a keyboard and a reader begin there. */
export function Screen({ title, back, actions, heading: drawn, above, beside, wide = false, children }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · Bakehouse Ledger`;
    if (!document.activeElement || document.activeElement === document.body) heading.current?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }, [title]);
  return (
    <main className={wide ? 'screen wide' : 'screen'}>
      <header className="screen-head">
        {back === undefined ? null : (
          <Link href={back.to} className="back">
            ‹ {back.text}
          </Link>
        )}
        <div className="screen-title">
          {above === undefined ? null : <p className="screen-above">{above}</p>}
          <h1 ref={heading} tabIndex={-1} aria-label={drawn === undefined ? undefined : title}>
            {drawn ?? title}
          </h1>
        </div>
        {beside}
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
