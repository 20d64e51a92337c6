import type { How } from '@bakehouse/kernel';
import type { PayloadFor } from '@bakehouse/records';
import { bought, materials, type BoughtKey, type MaterialKey } from '../data/materials.js';
import type { PersonKey } from '../data/people.js';
import type { PlaceKey } from '../data/places.js';
import { g, type Story } from './story.js';

interface Held {
  readonly lot: string;
  readonly grams: number;
  left: number;
  readonly useBy: string | null;
  /** Used on past what the records say it holds. */
  readonly bottomless: boolean;
}
/** One line of what goes into a make. */
export type Line = PayloadFor<'weighed-in'>['lines'][number];

/** What the store holds, oldest first, and what is open where: a mix takes what is open, and the sack that runs out is changed. */
export class Stock {
  private readonly held = new Map<MaterialKey, Held[]>();
  private readonly openAt = new Map<string, { readonly lot: string; readonly since: number }>();

  constructor(private readonly story: Story) {}

  received(material: MaterialKey, lot: string, grams: number, useBy: string | null = null): void {
    this.held.set(material, [...this.lots(material), { lot, grams, left: grams, useBy, bottomless: false }]);
  }

  /** A lot that is used before all others. */
  receivedFirst(material: MaterialKey, lot: string, grams: number, bottomless = false): void {
    this.lots(material).unshift({ lot, grams, left: grams, useBy: null, bottomless });
  }

  drop(material: MaterialKey, lot: string): void {
    this.held.set(
      material,
      this.lots(material).filter((h) => h.lot !== lot),
    );
  }

  left(material: MaterialKey): number {
    return this.lots(material).reduce((sum, h) => sum + h.left, 0);
  }
  /** The lot that the next mix takes. */
  current(material: MaterialKey): string | null {
    return this.lots(material)[0]?.lot ?? null;
  }
  leftOfCurrent(material: MaterialKey): number {
    return this.lots(material)[0]?.left ?? 0;
  }
  receivedOfCurrent(material: MaterialKey): number {
    return this.lots(material)[0]?.grams ?? 0;
  }
  /** Whether there is too little that can still be used on a day, when the supplier will have come again. */
  isLow(material: BoughtKey, on: string): boolean {
    const keeps = this.lots(material).filter((l) => l.useBy === null || l.useBy >= on);
    return keeps.reduce((sum, l) => sum + l.left, 0) < bought[material].below;
  }

  /** A count corrects what the records say of the open lot. */
  counted(material: MaterialKey, grams: number): void {
    const [first] = this.lots(material);
    if (first) first.left = grams;
  }

  /** Takes so much at a station. Where the sack runs out in between, what was left of it is a guess and the next one gives the rest. */
  take(material: MaterialKey, station: PlaceKey, grams: number, at: number, by: PersonKey, how: How = 'weighed'): Line[] {
    const lines: Line[] = [];
    let rest = grams;
    while (rest > 0) {
      const [first, next] = this.lots(material);
      if (!first) return [...lines, this.line(material, null, rest, 'weighed')];
      this.open(material, station, first.lot, at, by);
      const runsOut = next !== undefined && first.left < rest && !first.bottomless;
      const some = runsOut ? Math.max(0, first.left) : rest;
      if (some > 0) lines.push(this.line(material, first.lot, some, runsOut ? 'estimated' : how));
      first.left -= some;
      rest -= some;
      if (runsOut) this.runOut(material, station, at, by);
    }
    return lines;
  }

  /** What is past its use-by date is thrown away. */
  throwAwayExpired(today: string, at: number, by: PersonKey): void {
    for (const [material, lots] of this.held) {
      for (const h of lots.filter((l) => l.useBy !== null && l.useBy < today && l.left > 0)) this.wasted(h.lot, h.left, at, by);
      this.held.set(
        material,
        lots.filter((l) => l.useBy === null || l.useBy >= today),
      );
    }
  }

  wasted(lot: string, grams: number, at: number, by: PersonKey): string {
    return this.story.tell(
      'sent-out',
      { channel: 'waste', customer: null, unattended: false, until: null, lines: [{ lots: [lot], quantity: g(grams), how: 'weighed' }] },
      { at, by },
    );
  }

  /** Opens a lot at a station, where it is not open there yet, or another bottle of it where the open one would be open for too long before the mix is done. */
  open(material: MaterialKey, station: PlaceKey, lot: string, at: number, by: PersonKey): string | undefined {
    const key = `${station} ${material}`;
    const open = this.openAt.get(key);
    const { lifeOpenedHours } = materials[material];
    const keeps = lifeOpenedHours === null || (open !== undefined && at <= open.since + (lifeOpenedHours - 1) * 3_600_000);
    if (open?.lot === lot && keeps) return undefined;
    this.openAt.set(key, { lot, since: at });
    return this.story.tell(
      'lot-opened',
      { station: this.story.place[station], material: this.story.material[material], lot, beside: false },
      { at, by },
    );
  }

  private runOut(material: MaterialKey, station: PlaceKey, at: number, by: PersonKey): void {
    const gone = this.lots(material).shift();
    if (gone) this.story.tell('lot-emptied', { station: this.story.place[station], lot: gone.lot, left: null }, { at, by });
  }

  private lots(material: MaterialKey): Held[] {
    const lots = this.held.get(material) ?? [];
    this.held.set(material, lots);
    return lots;
  }

  private line(material: MaterialKey, lot: string | null, grams: number, how: How): Line {
    const type = materials[material].type === 'aid' ? 'aid' : 'ingredient';
    return { material: this.story.material[material], lot, quantity: g(Math.round(grams * 1000) / 1000), how, type };
  }
}
