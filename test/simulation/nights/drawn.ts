import { g } from '../../fixtures/bakehouse.js';
import type { AnyEntry } from '../../support/entries.js';

/** One thing that happened, on one of the tablets; what must have been recorded before it: the things that it names, and what the same tablet saved before. */
export interface Fact {
  readonly entry: AnyEntry & { readonly id: string; readonly at: string };
  readonly tablet: number;
  readonly needs: readonly string[];
}

/** What a bakehouse calls what a night is about, and where its ids come from. */
export interface World {
  readonly flour: string;
  readonly tin: string;
  readonly formulas: readonly [string, string];
  readonly mixer: string;
  readonly oven: string;
  readonly tub: string;
  readonly plan: string;
  readonly tinCore: string;
  readonly thermometer: string;
  newId(): string;
}

/** What is drawn by chance, and what has been drawn so far. */
export abstract class Drawn {
  readonly facts: Fact[] = [];
  /** What can be weighed in, held or counted. */
  readonly lots: string[] = [];
  /** What brought each thing into being: it must have been recorded before what names the thing. */
  protected readonly made = new Map<string, string>();

  constructor(
    protected readonly random: () => number,
    private readonly tablets: number,
    protected readonly world: World,
  ) {}

  protected pick<T>(list: readonly T[]): T | undefined {
    return list[Math.floor(this.random() * list.length)];
  }

  protected add(entry: AnyEntry, names: readonly string[], after?: Fact): Fact['entry'] {
    const tablet = Math.floor(this.random() * this.tablets);
    const needs = [...names.flatMap((n) => this.made.get(n) ?? []), ...(after ? [after.entry.id] : [])];
    const written = { ...entry, id: this.id(), at: this.time() };
    this.facts.push({ entry: written, tablet, needs });
    return written;
  }

  protected id(): string {
    return this.world.newId();
  }

  protected whole(least: number, most: number): number {
    return least + Math.floor(this.random() * (most - least + 1));
  }

  /** So many grams, or nobody weighed it. */
  protected grams(most: number): ReturnType<typeof g> | null {
    return this.random() < 0.15 ? null : g(String(this.whole(1, most)));
  }

  private time(): string {
    return new Date(Date.parse('2026-11-25T01:00:00Z') + Math.floor(this.random() * 360) * 60_000).toISOString();
  }
}
