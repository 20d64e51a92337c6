import { derivedId } from '@bakehouse/kernel';
import type { PayloadFor } from '@bakehouse/records';
import { delivered, g } from '../../fixtures/bakehouse.js';
import { Drawn } from './drawn.js';

/** What comes in, is opened at the mixer, what fills the tub, and what is named later. */
export abstract class NightStock extends Drawn {
  /** What came in from outside. */
  protected readonly received: string[] = [];
  /** What nobody could name when they took it. */
  private readonly unnamed: string[] = [];
  private readonly contents: string[] = [];
  private readonly opened: string[] = [];

  protected receive(): void {
    const lot = this.id();
    const quantity = this.random() < 0.2 ? null : { figure: String(this.whole(500, 25_000)), unit: 'g' as const };
    const lines = [delivered(lot, this.world.flour, { quantity, useBy: this.useBy() })];
    const payload: PayloadFor<'delivery-received'> = { supplier: null, noteNumber: null, photo: null, unattended: false, lines };
    const { id } = this.add({ kind: 'delivery-received', payload }, []);
    this.made.set(lot, id);
    this.lots.push(lot);
    this.received.push(lot);
  }

  /** Some has a date, which may be over or turn out to be another. */
  private useBy(): string | null {
    return this.pick(['2026-11-24', '2026-11-25', null, null, null, null]) ?? null;
  }

  /** Somebody looks at the sack again. */
  private date(): void {
    const fact = this.pick(this.facts.filter((f) => f.entry.kind === 'delivery-received' && f.entry.corrects === undefined));
    const changed = this.facts.some((f) => f.entry.corrects === fact?.entry.id);
    if (fact?.entry.kind !== 'delivery-received' || changed) return;
    const lines = fact.entry.payload.lines.map((l) => ({ ...l, useBy: this.useBy() }));
    const payload = { ...fact.entry.payload, lines };
    this.add({ kind: 'delivery-received', payload, corrects: fact.entry.id, words: { reason: 'misread' } }, [], fact);
  }

  protected stock(): void {
    const draw = this.random();
    if (draw < 0.08) return this.date();
    if (draw < 0.4) return this.topUp();
    if (draw < 0.55) return this.cleanOut();
    if (draw < 0.75) return this.open();
    if (draw < 0.85) return this.empty();
    return this.identify();
  }

  /** A placeholder stands for each line whose lot nobody can name. */
  protected nameless(entry: string, lines: readonly { readonly lot: string | null }[]): void {
    for (const [i, { lot }] of lines.entries()) if (lot === null) this.standsFor(derivedId(entry, `placeholder ${i}`), entry);
  }

  private standsFor(placeholder: string, entry: string): void {
    this.made.set(placeholder, entry);
    this.unnamed.push(placeholder);
  }

  private topUp(): void {
    const lots = Array.from({ length: this.random() < 0.2 ? 2 : 1 }, () => this.lotOrNone(this.received));
    const added = lots.map((lot) => ({ material: this.world.flour, lot, quantity: this.grams(9_000), how: 'weighed' as const }));
    const kept = this.random() < 0.5 ? null : g(String(this.whole(0, 2_000)));
    const payload = { vessel: this.world.tub, material: this.world.flour, kept, keptHow: 'estimated' as const, added };
    const { id } = this.add({ kind: 'vessel-topped-up', payload }, this.known(lots));
    this.nameless(id, added);
    this.made.set(id, id);
    this.lots.push(id);
    this.contents.push(id);
  }

  private cleanOut(): void {
    this.add({ kind: 'vessel-cleaned-out', payload: { vessel: this.world.tub } }, []);
  }

  private open(): void {
    const lot = this.lotOrNone([...this.received, ...this.contents]);
    const payload = { station: this.world.mixer, material: this.world.flour, lot, beside: this.random() < 0.3 };
    const { id } = this.add({ kind: 'lot-opened', payload }, this.known([lot]));
    if (lot === null) this.standsFor(derivedId(id, 'placeholder'), id);
    else this.opened.push(lot);
  }

  private empty(): void {
    const lot = this.pick(this.opened);
    if (lot === undefined) return;
    const left = this.random() < 0.5 ? null : g(this.random() < 0.5 ? '0' : '120');
    this.add({ kind: 'lot-emptied', payload: { station: this.world.mixer, lot, left } }, [lot]);
  }

  /** By its code, or as a lot that came in. */
  private identify(): void {
    const lot = this.pick(this.unnamed);
    if (lot === undefined) return;
    const same = this.random() < 0.8 ? (this.pick(this.received) ?? null) : null;
    const payload = { lot, code: same === null ? 'E7731' : null, same, delivery: null };
    this.add({ kind: 'lot-identified', payload }, this.known([lot, same]));
  }

  private lotOrNone(of: readonly string[]): string | null {
    return this.random() < 0.12 ? null : (this.pick(of) ?? null);
  }

  private known(lots: readonly (string | null)[]): string[] {
    return lots.flatMap((l) => l ?? []);
  }
}
