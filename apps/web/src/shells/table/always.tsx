import { useEffect, useRef, type ReactNode } from 'react';

/** What stays on top of every screen. The page is told how high it is, so that nothing that gets the focus stops under it. */
export function Always({ children }: { readonly children: ReactNode }) {
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const watch = new ResizeObserver(([one]) => {
      document.documentElement.style.setProperty('--head-room', `${(one?.contentRect.height ?? 0) + 12}px`);
    });
    if (top.current) watch.observe(top.current);
    return () => watch.disconnect();
  }, []);
  return (
    <div ref={top} className="always">
      {children}
    </div>
  );
}
