import type { Flows } from './model';

/** How high the whole of the first lot is drawn before anybody enlarges it. */
const wholeHeight = 300;
export const zooms = [0.5, 0.75, 1, 1.5, 2, 3] as const;

/** Pixels for each unit of weight: one for the whole picture. */
export function scaleOf({ lots, flows }: Flows, zoom: number): number {
  const first = new Set(lots.filter((l) => l.layer === 0).map((l) => l.id));
  const own = lots.reduce((n, l) => n + (first.has(l.id) ? l.weight : 0), 0);
  const out = flows.reduce((n, f) => n + (first.has(f.from) ? f.weight : 0), 0);
  const most = Math.max(own, out);
  return most > 0 ? (wholeHeight * zoom) / most : 0;
}

/** A round amount and how wide it is drawn, to be printed beside the picture. Null where no amount is known. */
export function measureOf(scale: number): { readonly amount: number; readonly width: number } | null {
  if (scale <= 0) return null;
  const power = 10 ** Math.floor(Math.log10(40 / scale));
  const amount = [5, 2, 1].map((n) => n * power).find((n) => n * scale <= 40) ?? power;
  return { amount: Math.max(amount, 1), width: Math.max(amount, 1) * scale };
}
