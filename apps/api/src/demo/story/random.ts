/**
 * Chance that is the same for the same seed: mulberry32, public domain. The demo's ids, salts and figures come from it, so that one day's demo
 * is like another's. Salts that can be worked out hide nothing: only invented names stand behind them.
 */
export class Chance {
  private a: number;

  constructor(seed: number) {
    this.a = seed >>> 0;
  }

  /** In [0, 1). */
  next(): number {
    this.a = (this.a + 0x6d2b79f5) >>> 0;
    let x = Math.imul(this.a ^ (this.a >>> 15), this.a | 1);
    x = (x + Math.imul(x ^ (x >>> 7), x | 61)) ^ x;
    return ((x ^ (x >>> 14)) >>> 0) / 4_294_967_296;
  }

  /** A whole number from least to most. */
  whole(least: number, most: number): number {
    return least + Math.floor(this.next() * (most - least + 1));
  }

  /** A figure with one place behind the point. */
  tenths(least: number, most: number): string {
    return (this.whole(Math.round(least * 10), Math.round(most * 10)) / 10).toFixed(1);
  }

  bytes(count: number): Uint8Array {
    return Uint8Array.from({ length: count }, () => this.whole(0, 255));
  }
}
