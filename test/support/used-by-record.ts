import { derivedId } from '@bakehouse/kernel';
import type { Fact } from '../simulation/nights/drawn.js';

type Entry = Fact['entry'];
const byTime = (a: { at: string; id: string }, b: { at: string; id: string }): number => `${a.at} ${a.id}`.localeCompare(`${b.at} ${b.id}`);

/** A thing that something is in: bought, so that specifications speak of it; a content of the tub, called a material; or made. */
export interface Thing {
  readonly type: 'bought' | 'content' | 'made';
  readonly material: string;
  readonly at: string;
}

/** What nights' entries say was used in what, read from the entries alone: a second reading, by nothing that the service reads them with. */
export class UsedByRecord {
  readonly things = new Map<string, Thing>();
  readonly into = new Map<string, Set<string>>();
  readonly changes: {
    readonly id: string;
    readonly make: string;
    readonly material: string | null;
    readonly instead: string | null;
    readonly at: string;
  }[] = [];
  private readonly makes = new Map<string, { readonly at: string; last: string; readonly version: string }>();
  private readonly batches = new Set<string>();
  private readonly contents: { readonly id: string; readonly at: string }[];
  private readonly cleanDowns: string[];

  constructor(facts: readonly Fact[]) {
    const entries = inForce(facts.map((f) => f.entry));
    this.contents = entries.filter((e) => e.kind === 'vessel-topped-up').sort(byTime);
    this.cleanDowns = entries.flatMap((e) => (e.kind === 'cleaned-down' && e.payload.type !== 'dry' ? [e.at] : [])).sort();
    for (const e of entries) if (e.kind === 'make-begun') this.makes.set(e.id, { at: e.at, last: e.at, version: e.payload.formulaVersion });
    for (const e of entries) this.read(e);
    this.fills(entries);
  }

  /** What was made in the same bowl before it was cleaned for this. */
  touching(make: string): string[] {
    const own = this.makes.get(make);
    if (!own) return [];
    const cleanSince = (last: string): boolean => this.cleanDowns.some((at) => at > last && at <= own.at);
    return [...this.makes].flatMap(([id, m]) => (m.at < own.at && !cleanSince(m.last) ? [id] : []));
  }

  isBatch(id: string): boolean {
    return this.batches.has(id);
  }

  /** The formula version that a make was made by, or a run or batch came of. */
  versionOf(id: string): string | undefined {
    const make = this.makes.get(id);
    const [source] = this.into.get(id) ?? [];
    return make?.version ?? (source === undefined ? undefined : this.versionOf(source));
  }

  private read(e: Entry): void {
    if (e.kind === 'delivery-received')
      for (const line of e.payload.lines) this.things.set(line.lot, { type: 'bought', material: line.material, at: e.at });
    if (e.kind === 'make-begun') this.things.set(e.id, { type: 'made', material: '', at: e.at });
    if (e.kind === 'weighed-in') this.takes(e, e.payload.make, e.payload.lines);
    if (e.kind === 'vessel-topped-up') {
      this.things.set(e.id, { type: 'content', material: e.payload.material, at: e.at });
      this.takes(e, e.id, e.payload.added);
    }
    if (e.kind === 'divided')
      for (const { run, product } of e.payload.runs) {
        this.things.set(run, { type: 'made', material: product, at: e.at });
        this.flows(e.payload.make, run, e.at);
      }
    if (e.kind === 'batch-counted-out') {
      this.batches.add(e.id);
      this.things.set(e.id, { type: 'made', material: this.things.get(e.payload.run)?.material ?? '', at: e.at });
      this.flows(e.payload.run, e.id, e.at);
    }
    if (e.kind === 'lot-opened' && e.payload.lot === null)
      this.things.set(derivedId(e.id, 'placeholder'), { type: 'bought', material: e.payload.material, at: e.at });
    if (e.kind === 'lot-identified' && e.payload.same !== null) this.flows(e.payload.same, e.payload.lot, e.at);
    if (e.kind === 'one-off-changed') this.changes.push({ ...e.payload, id: e.id, at: e.at });
  }

  /**
   * What the tub held goes on into what is filled in next, unless it was cleaned out in between: by what was recorded before. What is recorded late goes
   * on into the content that came next besides; it takes back nothing that was said of the others.
   */
  private fills(entries: readonly Entry[]): void {
    const [contents, cleanOuts]: [{ readonly id: string; readonly at: string }[], string[]] = [[], []];
    const cleanedBetween = (from: string, until: string): boolean => cleanOuts.some((at) => at >= from && at <= until);
    for (const e of entries) {
      if (e.kind === 'vessel-cleaned-out') cleanOuts.push(e.at);
      if (e.kind !== 'vessel-topped-up') continue;
      const [before, next] = [contents.filter((c) => c.at <= e.at).at(-1), contents.find((c) => c.at > e.at)];
      if (before && !cleanedBetween(before.at, e.at)) this.flows(before.id, e.id, e.at);
      if (next && !cleanedBetween(e.at, next.at)) this.flows(e.id, next.id, next.at);
      contents.push(e);
      contents.sort(byTime);
    }
  }

  private takes(
    e: Entry,
    target: string,
    lines: readonly { readonly material: string; readonly lot: string | null; readonly orLots?: readonly string[] | undefined }[],
  ): void {
    const named = lines.flatMap(({ material, lot, orLots = [] }) => [lot, ...orLots].map((one) => ({ material, lot: one })));
    for (const [i, { material, lot }] of named.entries()) {
      const source = lot ?? derivedId(e.id, `placeholder ${i}`);
      if (lot === null) this.things.set(source, { type: 'bought', material, at: e.at });
      this.flows(source, target, e.at);
    }
  }

  private flows(source: string, target: string, at: string): void {
    const make = this.makes.get(target);
    if (make && at > make.last) make.last = at;
    for (const one of [source, this.thereInstead(source, at)])
      if (one !== undefined && one !== target) this.into.set(target, (this.into.get(target) ?? new Set()).add(one));
  }

  /** The content that was in the tub when somebody named one that was over: it may have been that. */
  private thereInstead(named: string, at: string): string | undefined {
    const i = this.contents.findIndex((c) => c.id === named);
    const then = this.contents.findLastIndex((c) => c.at <= at);
    return i >= 0 && then > i ? this.contents[then]?.id : undefined;
  }
}

/** Entries as they were corrected last, under the id that they began with; without what was withdrawn. */
export function inForce(entries: readonly Entry[]): Entry[] {
  const chains = new Map<string, Entry>();
  for (const e of entries)
    if (e.kind === 'entry-withdrawn') chains.delete(e.corrects ?? '');
    else chains.set(e.corrects ?? e.id, { ...e, id: e.corrects ?? e.id });
  return [...chains.values()];
}
