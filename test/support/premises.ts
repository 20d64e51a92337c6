import type { How } from '@bakehouse/kernel';
import { pointId, type KindName, type OutcomeOf, type PayloadFor, type SubjectType } from '@bakehouse/records';
import type { BakehouseIds, FormulaKey, Material, Party, Place, PointKey } from './bakehouse-data.js';

/** A wall-clock time of the night of the scenarios, when the clocks show UTC. */
export const at = (time: string, day = '2026-11-25'): string => `${day}T${time}:00+00:00`;
export const g = (figure: string) => ({ figure, unit: 'g' }) as const;
export const celsius = (figure: string) => ({ figure, unit: 'degC' }) as const;
export const pieces = (figure: number) => ({ figure: String(figure), unit: 'piece' }) as const;

type DeliveryLine = PayloadFor<'delivery-received'>['lines'][number];

export interface RecordOptions {
  readonly at?: string;
  readonly words?: Record<string, string>;
  readonly corrects?: string;
}

/** Records an entry: somebody at the door of a service, or a book in memory. */
export interface Recorder {
  record<K extends KindName>(kind: K, payload: PayloadFor<K>, options?: RecordOptions): Promise<{ id: string; outcome: OutcomeOf<K> }>;
}

/** What a bakehouse was founded with, and what it is called by. */
export interface Founded {
  readonly site: string;
  readonly ids: BakehouseIds;
  readonly places: Readonly<Record<Place, string>>;
  readonly versions: Readonly<Record<FormulaKey, string>>;
  readonly plan: string;
}

/** The bakehouse of the scenarios, no matter where its book is kept: what it is called by, and the payloads that its night is recorded with. */
export abstract class Premises {
  protected abstract readonly founded: Founded;
  abstract readonly baker: Recorder;
  abstract newId(): string;

  get site(): string {
    return this.founded.site;
  }
  get plan(): string {
    return this.founded.plan;
  }
  get ids(): BakehouseIds {
    return this.founded.ids;
  }
  get places(): Readonly<Record<Place, string>> {
    return this.founded.places;
  }
  material(key: Material): string {
    return this.ids.materials[key];
  }
  party(key: Party): string {
    return this.ids.parties[key];
  }
  place(key: Place): string {
    return this.places[key];
  }
  /** The version that is baked by, and the formula that it is a version of. */
  formula(key: FormulaKey): string {
    return this.founded.versions[key];
  }
  formulaId(key: FormulaKey): string {
    return this.ids.formulas[key];
  }
  point(key: PointKey): string {
    return pointId(this.plan, key);
  }

  /** One line of a delivery: 25 kg with a code, unless it says otherwise. */
  line(material: Material, lot: string, of: Partial<DeliveryLine> = {}): DeliveryLine {
    return {
      lot,
      material: this.material(material),
      code: `L-${lot.slice(-4)}`,
      codeState: 'on-it',
      quantity: { figure: '25', unit: 'kg' },
      asWritten: null,
      bestBefore: null,
      useBy: null,
      temperature: null,
      ...of,
    };
  }

  async delivered(material: Material, time: string, of: Partial<DeliveryLine> = {}): Promise<string> {
    const lot = this.newId();
    await this.baker.record(
      'delivery-received',
      { supplier: null, noteNumber: 'DN 1', photo: null, unattended: false, lines: [this.line(material, lot, of)] },
      { at: time },
    );
    return lot;
  }

  /** So much of a lot was carried to another place of the site. */
  async carried(lot: string, to: Place, grams: string, time: string): Promise<void> {
    const lines = [{ lot, from: null, quantity: g(grams), how: 'weighed' as const }];
    await this.baker.record('lots-moved', { to: this.place(to), lines }, { at: time });
  }

  async begun(key: FormulaKey, time: string, of: Partial<PayloadFor<'make-begun'>> = {}): Promise<string> {
    const payload = {
      formulaVersion: this.formula(key),
      station: null,
      plan: this.plan,
      bakeDay: time.slice(0, 10),
      plannedMg: null,
      ...of,
    };
    return (await this.baker.record('make-begun', payload, { at: time })).id;
  }

  /** A line of what goes into a make. */
  into(material: Material, grams: string, lot: string | null = null, how: How = 'weighed'): PayloadFor<'weighed-in'>['lines'][number] {
    return { material: this.material(material), lot, quantity: g(grams), how, type: 'ingredient' };
  }

  reading(
    key: PointKey,
    subjectType: SubjectType,
    subject: string,
    figure: string,
    of: Partial<PayloadFor<'reading-taken'>> = {},
  ): PayloadFor<'reading-taken'> {
    const [measured, parameter] = key === 'dough' ? (['dough', 'dough temperature'] as const) : (['core', 'core temperature'] as const);
    return {
      subjectType,
      subject,
      point: this.point(key),
      measured,
      parameter,
      instrument: null,
      value: celsius(figure),
      yes: null,
      seconds: null,
      ...of,
    };
  }
}
