import { randomUUID } from 'node:crypto';
import { entry } from '../support/entries.js';
import type { Sent, SimulatedHouse } from './house.js';
import type { Happening, Model } from './model.js';

/** One step of a simulation: what is sent, and what it makes of the model if it is recorded; which outcome the model projects. */
export interface Move {
  readonly sent: Sent;
  readonly projected: 'recorded' | 'refused';
  apply(model: Model): void;
}

/** Draws the next step: mostly something new, often late, sometimes a correction or a withdrawal, now and then of something that is not there. */
export class Moves {
  constructor(
    private readonly house: SimulatedHouse,
    private readonly random: () => number,
  ) {}

  next(model: Model): Move {
    const { roots } = model;
    const draw = this.random();
    const root = draw < 0.36 && roots.length > 3 ? this.pick(roots) : undefined;
    if (root === undefined) return this.fresh(model);
    return draw < 0.12 ? this.withdrawal(root) : this.correction(model, root);
  }

  private fresh(model: Model): Move {
    const happening = this.happening(model);
    const sent = this.house.entryOf(happening);
    return { sent, projected: this.fits(model, happening) ? 'recorded' : 'refused', apply: (m) => m.set(sent.id, happening) };
  }

  private correction(model: Model, root: string): Move {
    const before = this.contents.get(root);
    const happening = before ? this.changed(model, before) : undefined;
    if (!happening) return this.fresh(model);
    const sent = this.house.entryOf(happening, { corrects: root });
    return { sent, projected: this.fits(model, happening) ? 'recorded' : 'refused', apply: (m) => m.set(root, happening) };
  }

  private withdrawal(root: string): Move {
    const sent = entry('entry-withdrawn', {}, { corrects: root, at: this.time(), words: { reason: 'it never happened' } });
    return { sent, projected: 'recorded', apply: (m) => m.withdraw(root) };
  }

  /** What each chain last said, withdrawn or not: a correction puts a withdrawn one back. */
  readonly contents = new Map<string, Happening>();

  private happening(model: Model): Happening {
    const { lots } = model;
    const at = this.time();
    const lot = lots.length > 0 && this.random() < 0.97 ? this.pick(lots) : randomUUID();
    const draw = lots.length < 2 ? 0 : this.random();
    if (draw < 0.14) return { type: 'delivered', lot: randomUUID(), grams: this.grams(2_000, 25_000), at };
    if (draw < 0.5) {
      const lines = Array.from({ length: 1 + Math.floor(this.random() * 3) }, () => ({
        lot: this.random() < 0.7 ? lot : this.pick(lots),
        grams: this.grams(1, 6_000),
      }));
      return { type: 'weighed-in', make: this.pick(this.house.makes), lines, at };
    }
    if (draw < 0.68) return { type: 'sent-out', lot, grams: this.grams(1, 3_000), at };
    if (draw < 0.84)
      return { type: 'returned', lot, grams: this.grams(1, 500), disposition: this.random() < 0.6 ? 'on-hand' : 'waste', at };
    return { type: 'counted', lot, grams: this.grams(0, 12_000), at };
  }

  private changed(model: Model, before: Happening): Happening {
    const at = this.random() < 0.5 ? before.at : this.time();
    if (before.type === 'weighed-in') return { ...before, lines: before.lines.map((l) => ({ ...l, grams: this.grams(1, 6_000) })), at };
    if (before.type === 'delivered') return { ...before, grams: this.grams(2_000, 25_000), at };
    const lot = this.random() < 0.4 && model.lots.length > 0 ? this.pick(model.lots) : before.lot;
    return { ...before, lot, grams: this.grams(0, 4_000), at };
  }

  /** A fact is refused only where it speaks of a lot that is not there. */
  private fits(model: Model, h: Happening): boolean {
    const there = model.known;
    if (h.type === 'delivered') return true;
    return h.type === 'weighed-in' ? h.lines.every((l) => there.has(l.lot)) : there.has(h.lot);
  }

  private pick<T>(list: readonly T[]): T {
    const found = list[Math.floor(this.random() * list.length)];
    if (found === undefined) throw new Error('nothing to pick from');
    return found;
  }

  /** Whole grams, so that the model's sums are exact. */
  private grams(least: number, most: number): number {
    return least + Math.floor(this.random() * (most - least + 1));
  }

  /** Any second of two days that are over: what is sent next may have happened long before what was sent last. */
  private time(): string {
    return new Date(Date.parse('2026-11-23T06:00:00Z') + Math.floor(this.random() * 172_800) * 1000).toISOString();
  }
}
