type Point = readonly [x: number, y: number];

const n = (value: number): string => String(Math.round(value * 10) / 10);

/** The outline of a band that bends once from one height to another, within so much of its way from where it begins, and then runs level. */
export function bandPath([x0, y0]: Point, [x1, y1]: Point, width: number, bend: number): string {
  const way = x1 < x0 ? -1 : 1;
  const turn = x0 + way * Math.min(Math.abs(x1 - x0), Math.max(bend, 0));
  const half = width / 2;
  const mid = (x0 + turn) / 2;
  return [
    `M${n(x0)} ${n(y0 - half)}`,
    `C${n(mid)} ${n(y0 - half)} ${n(mid)} ${n(y1 - half)} ${n(turn)} ${n(y1 - half)}`,
    `H${n(x1)}V${n(y1 + half)}H${n(turn)}`,
    `C${n(mid)} ${n(y1 + half)} ${n(mid)} ${n(y0 + half)} ${n(x0)} ${n(y0 + half)}Z`,
  ].join('');
}
