import { useEffect, useMemo, useRef, useState, type ReactNode } from 'react';
import { useLocation } from 'wouter';
import { roomForTwo, useMedia } from '../media';
import { InPanel } from '../panel';
import { AsLeft, newKept } from './as-left';
import './beside.css';

interface Props {
  /** Which one is open, by the page's address. */
  readonly opened: string | undefined;
  /** The address of the list with nothing open. */
  readonly closed: string;
  readonly list: ReactNode;
  readonly shown: (id: string) => ReactNode;
}

/**
 * A list, and the one of it that is open: in a panel beside it where there is room, else a page of its own. Its address is the same. Escape closes the panel;
 * then the row has the focus from which it was opened.
 */
export function Beside({ opened, closed, list, shown }: Props) {
  const [kept] = useState(newKept);
  const room = useMedia(roomForTwo);
  const [, go] = useLocation();
  const before = useRef(opened);
  if (before.current !== opened) {
    if (before.current !== undefined && opened === undefined) kept.focus = before.current;
    before.current = opened;
  }
  const panel = useMemo(() => ({ onClose: () => go(closed) }), [go, closed]);
  const inPanel = room && opened !== undefined;
  useEffect(() => {
    if (!inPanel) return;
    const escape = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape' || event.defaultPrevented || document.querySelector('dialog[open]') !== null) return;
      panel.onClose();
    };
    document.addEventListener('keydown', escape);
    return () => document.removeEventListener('keydown', escape);
  }, [inPanel, panel]);
  return (
    <AsLeft value={kept}>
      {room || opened === undefined ? (
        <div className={inPanel ? 'beside open' : 'beside'}>
          {list}
          {inPanel ? (
            <aside className="panel" aria-label="What is open">
              <InPanel value={panel}>{shown(opened)}</InPanel>
            </aside>
          ) : null}
        </div>
      ) : (
        shown(opened)
      )}
    </AsLeft>
  );
}
