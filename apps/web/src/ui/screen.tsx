import { useContext, useEffect, useRef, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useWhoMay } from './offered';
import { InPanel } from './panel';

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

/** One screen, or the same in a panel beside the list that it was opened from. */
export function Screen(props: Props) {
  const panel = useContext(InPanel);
  return panel === null ? <Page {...props} /> : <Panel {...props} onClose={panel.onClose} />;
}

/** A page: its heading takes the focus when it opens, so that a keyboard and a reader begin there. */
function Page({ title, back, actions, heading: drawn, above, beside, wide = false, children }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  const { Around, note } = useWhoMay();
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
        {actions === undefined ? null : (
          <div className="screen-actions">
            <Around>{actions}</Around>
          </div>
        )}
      </header>
      {note}
      <Around>{children}</Around>
    </main>
  );
}

/** What was opened from a list: its heading takes the focus, and the page is called after it while it is open. */
function Panel({ title, heading: drawn, above, beside, actions, onClose, children }: Props & { readonly onClose: () => void }) {
  const heading = useRef<HTMLHeadingElement>(null);
  const { Around, note } = useWhoMay();
  useEffect(() => {
    const before = document.title;
    document.title = `${title} · Bakehouse Ledger`;
    heading.current?.focus({ preventScroll: true });
    return () => {
      document.title = before;
    };
  }, [title]);
  return (
    <>
      <header className="panel-head">
        <div className="screen-title">
          {above === undefined ? null : <p className="screen-above">{above}</p>}
          <h2 ref={heading} tabIndex={-1}>
            {drawn ?? title}
          </h2>
        </div>
        {actions === undefined ? null : (
          <div className="screen-actions">
            <Around>{actions}</Around>
          </div>
        )}
        <button type="button" className="button quiet" onClick={onClose}>
          Close
        </button>
        {beside}
      </header>
      {note}
      <Around>{children}</Around>
    </>
  );
}

export function Section({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  const Heading = useContext(InPanel) === null ? 'h2' : 'h3';
  return (
    <section className="section">
      <Heading>{title}</Heading>
      {children}
    </section>
  );
}
