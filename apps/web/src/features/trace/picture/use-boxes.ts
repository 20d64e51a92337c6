import { useLayoutEffect, useRef, useState, type RefObject } from 'react';
import type { Box } from './model';

export interface Boxes {
  readonly frame: RefObject<HTMLDivElement | null>;
  readonly width: number;
  /** Where the lines of the table stand, from the top of the frame. */
  readonly lines: readonly Box[];
}

/** How wide there is room, and where the table's lines came to stand, whenever either changes. */
export function useBoxes(): Boxes {
  const frame = useRef<HTMLDivElement>(null);
  const [found, setFound] = useState<{ readonly width: number; readonly lines: readonly Box[] }>({ width: 0, lines: [] });
  useLayoutEffect(() => {
    const of = frame.current;
    if (of === null) return undefined;
    const look = (): void => {
      const { top, width } = of.getBoundingClientRect();
      const lines = [...of.querySelectorAll('tr[data-end]')].map((line) => {
        const box = line.getBoundingClientRect();
        return { top: box.top - top, height: box.height };
      });
      setFound((before) => (JSON.stringify(before) === JSON.stringify({ width, lines }) ? before : { width, lines }));
    };
    look();
    const watch = new ResizeObserver(look);
    watch.observe(of);
    for (const line of of.querySelectorAll('table, tr[data-end]')) watch.observe(line);
    return () => watch.disconnect();
  }, []);
  return { frame, ...found };
}
