import { allergen, type Allergen } from '@bakehouse/kernel';
import type { FormulaContent } from '@bakehouse/records';
import type { UsedByRecord } from './used-by-record.js';

/** What somebody said of a material from an instant on; not checked where it says no day. */
export interface Said {
  readonly material: string;
  readonly since: string;
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
  readonly checkedOn: string | null;
}
/** What is in something: nothing of it is absent for certain where something is not known. */
export interface Contents {
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
  readonly fromBowl: readonly Allergen[];
  readonly checkedSince: string | null;
}
export interface ByFormula {
  readonly makes: string;
  readonly content: FormulaContent;
}

interface Heap {
  readonly has: Set<Allergen>;
  readonly may: Set<Allergen>;
  readonly checks: Set<string>;
  readonly seen: Set<string>;
  unknown: boolean;
}
const emptyHeap = (): Heap => ({ has: new Set(), may: new Set(), checks: new Set(), seen: new Set(), unknown: false });
const listed = (of: ReadonlySet<Allergen>): Allergen[] => allergen.options.filter((a) => of.has(a));

/** What should be in lots by what was used, and in materials by their formulas: worked out by the test itself, from what it recorded. */
export class ContentsExpected {
  constructor(
    private readonly used: UsedByRecord,
    private readonly said: readonly Said[],
    private readonly formulas: readonly FormulaContent[],
    private readonly now: string,
  ) {}

  /** By what was used. */
  of(ids: readonly string[]): Contents {
    const own = emptyHeap();
    for (const id of ids) this.walk(id, own);
    const before = emptyHeap();
    for (const make of own.seen) for (const b of this.used.touching(make)) if (!own.seen.has(b)) this.walk(b, before);
    const traces = [...before.has, ...before.may].filter((a) => !own.has.has(a) && !own.may.has(a));
    const [oldest = null] = [...own.checks, ...before.checks].sort();
    return {
      contains: listed(own.has),
      mayContain: listed(own.may).filter((a) => !own.has.has(a)),
      fromBowl: listed(new Set(traces)),
      checkedSince: own.unknown || before.unknown ? null : oldest,
    };
  }

  /** By formula, with what was known at an instant. */
  ofMaterials(lines: readonly string[], at = this.now): Omit<Contents, 'fromBowl'> {
    const heap = emptyHeap();
    for (const material of lines) this.written(material, at, heap);
    const [oldest = null] = [...heap.checks].sort();
    const mayContain = listed(heap.may).filter((a) => !heap.has.has(a));
    return { contains: listed(heap.has), mayContain, checkedSince: heap.unknown ? null : oldest };
  }

  private walk(id: string, heap: Heap): void {
    if (heap.seen.has(id)) return;
    heap.seen.add(id);
    const thing = this.used.things.get(id);
    const sources = [...(this.used.into.get(id) ?? [])];
    const changes = this.used.changes.filter((c) => c.make === id && !this.covered(c.instead, c.material, sources));
    if (thing?.type === 'bought') this.speaks(this.sinceThen(thing.material, thing.at), heap);
    else if (sources.length + changes.length === 0) heap.unknown = true;
    if (thing?.type === 'content') this.speaks(this.at(thing.material, thing.at), { ...heap, unknown: false });
    for (const { instead, at } of changes)
      if (instead === null) heap.unknown = true;
      else this.speaks(this.sinceThen(instead, at), heap);
    for (const source of sources) this.walk(source, heap);
  }

  /** A change that names only an amount, or what was weighed in besides, brings in nothing more. */
  private covered(instead: string | null, material: string | null, sources: readonly string[]): boolean {
    return instead === null ? material !== null : sources.some((s) => this.used.things.get(s)?.material === instead);
  }

  private written(material: string, at: string, heap: Heap): void {
    if (heap.seen.has(material)) return;
    heap.seen.add(material);
    const makers = this.formulas.filter((f) => f.makes === material || f.products.some((p) => p.product === material));
    if (makers.length === 0) return this.speaks(this.at(material, at), heap);
    for (const { lines } of makers) for (const line of lines) this.written(line.material, at, heap);
  }

  private speaks(said: readonly Said[], heap: Heap): void {
    if (said.length === 0) heap.unknown = true;
    for (const { contains, mayContain, checkedOn } of said) {
      for (const a of contains) heap.has.add(a);
      for (const a of mayContain) heap.may.add(a);
      if (checkedOn === null) heap.unknown = true;
      else heap.checks.add(checkedOn);
    }
  }

  /** What was in force then. */
  private at(material: string, at: string): Said[] {
    return this.saidOf(material)
      .filter((s) => s.since <= at)
      .slice(-1);
  }
  /** That, and whatever was said since. */
  private sinceThen(material: string, at: string): Said[] {
    return [...this.at(material, at), ...this.saidOf(material).filter((s) => s.since > at)];
  }
  private saidOf(material: string): Said[] {
    return this.said
      .filter((s) => s.material === material && s.since <= this.now)
      .sort((a, b) => Date.parse(a.since) - Date.parse(b.since));
  }
}
