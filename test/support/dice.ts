import { mulberry } from './seeded.js';

/** Choices that are the same for the same seed. */
export class Dice {
  readonly next: () => number;

  constructor(seed: number) {
    this.next = mulberry(seed);
  }

  chance(of: number): boolean {
    return this.next() < of;
  }
  below(limit: number): number {
    return Math.floor(this.next() * limit);
  }
  /** One of a list that is not empty. */
  of<T>(list: readonly T[]): T {
    const at = this.below(list.length);
    for (const one of list.slice(at, at + 1)) return one;
    throw new Error('nothing to choose from');
  }
  digits(from: number, to: number): string {
    return Array.from({ length: from + this.below(to - from + 1) }, () => String(this.below(10))).join('');
  }
  hex(length: number): string {
    return Array.from({ length }, () => this.below(16).toString(16)).join('');
  }
  /** A UUIDv7 of the night that tests stand in. */
  uuid(): string {
    return `019ac0${this.hex(2)}-${this.hex(4)}-7${this.hex(3)}-8${this.hex(3)}-${this.hex(12)}`;
  }
  word(): string {
    return this.of(['flour', 'A77', 'Rye', 'Bo', 'x', '1 kg', 'no', 'the table', 'Zoë']);
  }
}
