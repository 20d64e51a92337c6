import type { KindName, PayloadFor } from '@bakehouse/records';
import { Book, uuid } from '../fixtures/driver.js';
import { catalogue, formulasOf, idsFrom, parties, placeSorts, pointsOf, type FormulaKey, type Place } from './bakehouse-data.js';
import { everyKindAt, type Sample } from './every-kind.js';
import { Premises, type Founded, type Recorder, type RecordOptions } from './premises.js';

const long = '2026-11-01T08:00:00+00:00';
const ids = (from: number) => {
  let next = from;
  return (): string => uuid((next += 1));
};

/** The bakehouse of the scenarios with its one book in memory, the same to the byte each time it is founded. */
export class GoldenHouse extends Premises {
  readonly book = new Book();
  readonly baker: Recorder = { record: (kind, payload, options) => Promise.resolve(this.recorded(kind, payload, options)) };
  readonly newId = ids(0x200000);
  protected readonly founded: Founded;

  constructor() {
    super();
    const made = idsFrom(ids(0x300000));
    for (const [key, of] of Object.entries(catalogue))
      this.recorded('specification-accepted', { ...of, material: made.materials[key as keyof typeof catalogue] }, { at: long }); // its keys
    for (const [key, { name, phone, ...of }] of Object.entries(parties)) {
      const party = made.parties[key as keyof typeof parties]; // its keys
      this.recorded('party-accepted', { ...of, party }, { at: long, words: { name, phone, contactName: 'the person who answers' } });
    }
    const places = Object.entries(placeSorts).map(([name, type]) => [
      name,
      this.recorded('place-in-use', { name, type, within: null }, { at: long }).id,
    ]);
    const versions = formulasOf(made).map(([key, type, name, content]) => [
      key,
      this.recorded('formula-approved', { formula: made.formulas[key], number: 1, name, type, content }, { at: long }).id,
    ]);
    const content = {
      name: 'Plan',
      scope: 'all',
      team: 'lead',
      pastLife: { opened: 'warn', madeHere: 'warn' } as const,
      points: pointsOf(made),
    };
    this.founded = {
      site: uuid(3),
      ids: made,
      places: Object.fromEntries(places) as Record<Place, string>, // each of them was put in use
      versions: Object.fromEntries(versions) as Record<FormulaKey, string>, // each of them was approved
      plan: this.recorded('plan-approved', { series: made.plan, number: 1, site: null, content }, { at: long }).id,
    };
  }

  /** One good payload of every kind, about what stands in this house. */
  async samples(): Promise<readonly Sample[]> {
    const { baker } = this;
    const joined = async (name: string): Promise<string> => (await baker.record('person-joined', {}, { words: { name } })).id;
    return (await everyKindAt(this, { admin: baker, atSite: baker, owner: baker, joined }))();
  }

  private recorded<K extends KindName>(kind: K, payload: PayloadFor<K>, options: RecordOptions = {}) {
    return this.book.record(kind, payload, { at: '2026-11-25T04:00:00+00:00', ...options });
  }
}
