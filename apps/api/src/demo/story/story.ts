import { derivedId, onTheWall, temperatureUnits } from '@bakehouse/kernel';
import { kindOf, pointId } from '@bakehouse/records';
import * as z from 'zod';
import { uuidv7From } from '../../platform/ids/index.js';
import { formulas, type FormulaKey } from '../data/formulas.js';
import { materials, type MaterialKey } from '../data/materials.js';
import { parties, type PartyKey } from '../data/parties.js';
import { people, type PersonKey } from '../data/people.js';
import { instruments, places, shopInstruments, shopPlaces, type InstrumentKey, type PlaceKey, type ShopPlaceKey } from '../data/places.js';
import { Chance } from './random.js';

export type Where = 'bakehouse' | 'shop' | 'organisation';

/** What is known before the story begins: whose it is, and where. */
export interface World {
  readonly sites: Readonly<Record<'bakehouse' | 'shop', string>>;
  readonly devices: Readonly<Record<'bakehouse' | 'shop', string>>;
  readonly owner: string;
  readonly zone: string;
  readonly lastDay: string;
  readonly weeks: number;
}

export interface Told {
  readonly at: number;
  readonly by: PersonKey;
  readonly where?: Where;
  readonly doneBy?: PersonKey;
  readonly words?: Readonly<Record<string, string>>;
  readonly corrects?: string;
  readonly after?: readonly string[];
  readonly about?: boolean;
  readonly id?: string;
  /** When it reaches the door; else as it happens. */
  readonly typedAt?: number;
  readonly clockErrorMs?: number;
  /** Sent twice, because the first answer got lost. */
  readonly again?: boolean;
}

/** One record of the story, with who sends it, when and where. */
export interface Draft {
  readonly entry: Record<string, unknown> & { readonly id: string; readonly kind: string };
  readonly where: Where;
  readonly by: PersonKey;
  readonly typedMs: number;
  readonly again: boolean;
}

/** A problem that was planted: what to look for, and the records and things that show it. */
export interface Planted {
  readonly what: string;
  readonly day: string;
  readonly ids: readonly string[];
}

const keysOf = <K extends string>(of: Readonly<Record<K, unknown>>): K[] => Object.keys(of) as K[]; // a constant object's own keys

/** Collects the story's records as they happen. Pure: the same world gives the same records, ids and salts. */
export class Story {
  readonly chance: Chance;
  readonly planted = new Map<string, Planted>();
  readonly material: Readonly<Record<MaterialKey, string>>;
  readonly party: Readonly<Record<PartyKey, string>>;
  readonly formula: Readonly<Record<FormulaKey, string>>;
  readonly person: Readonly<Record<PersonKey, string>>;
  readonly place: Readonly<Record<PlaceKey | ShopPlaceKey, string>>;
  readonly instrument: Readonly<Record<InstrumentKey, string>>;
  readonly planSeries: string;
  /** Formula versions and the plan as the bakers' tablet knows them. */
  readonly version = new Map<FormulaKey, string>();
  plan = '';
  /** The probe that is used beside P1. */
  secondProbe: 'p2' | 'p3' = 'p2';
  private readonly drafts: (Omit<Draft, 'entry'> & { readonly entry: Record<string, unknown> & { id: string; kind: string } })[] = [];

  constructor(
    readonly world: World,
    firstMs: number,
    seed = 4_107,
  ) {
    this.chance = new Chance(seed);
    const ids = <K extends string>(of: Readonly<Record<K, unknown>>): Record<K, string> =>
      Object.fromEntries(keysOf(of).map((key) => [key, this.newId(firstMs)])) as Record<K, string>; // each key of it
    this.material = ids(materials);
    this.party = ids(parties);
    this.formula = ids(formulas);
    this.person = { ...ids(people), owner: world.owner };
    this.place = ids({ ...places, ...shopPlaces });
    this.instrument = ids({ ...instruments, ...shopInstruments });
    this.planSeries = this.newId(firstMs);
  }

  newId(ms: number): string {
    return uuidv7From(new Date(ms), this.chance.bytes(10));
  }

  /** Notes one record and gives its id. */
  tell(kind: string, payload: unknown, told: Told): string {
    const { at, by, where = 'bakehouse', doneBy, words, corrects, after, about = false, typedAt = at, clockErrorMs = 0 } = told;
    const id = told.id ?? this.newId(at);
    const device = where === 'organisation' ? null : this.world.devices[where];
    const salted =
      words &&
      Object.fromEntries(
        Object.entries(words).map(([key, text]) => [key, { text, salt: Buffer.from(this.chance.bytes(16)).toString('hex') }]),
      );
    this.drafts.push({
      where,
      by,
      typedMs: Math.max(at, typedAt),
      again: told.again ?? false,
      entry: {
        id,
        kind,
        version: kindOf({ kind })?.version ?? 1,
        occurredAt: { at: onTheWall(new Date(at).toISOString(), this.world.zone), precision: about ? 'about' : 'exact' },
        doneBy: doneBy === undefined || doneBy === by ? null : this.person[doneBy],
        device: { id: device, seq: 0, clockErrorMs },
        payload,
        ...(salted && { words: salted }),
        ...(after && { after }),
        ...(corrects !== undefined && { corrects }),
      },
    });
    return id;
  }

  /** The departures of a lot that are told so far, in the order told: what each is called, and the deviation that it opens if the lot was not to go. */
  departuresOf(lot: string, beforeMs = Number.POSITIVE_INFINITY): { departure: string; deviation: string }[] {
    return this.drafts
      .filter((d) => d.entry.kind === 'sent-out' && d.typedMs < beforeMs)
      .flatMap(({ entry }) =>
        linesOf(entry).flatMap(({ lots }, i) =>
          lots.includes(lot)
            ? [{ departure: derivedId(entry.id, `${i} ${lot}`), deviation: derivedId(entry.id, `deviation ${i} ${lot}`) }]
            : [],
        ),
      );
  }

  plant(key: string, what: string, day: string, ids: readonly string[]): void {
    this.planted.set(key, { what, day, ids });
  }

  point(key: string, plan = this.plan): string {
    return pointId(plan, key);
  }

  /** The records in the order in which they reach the door, up to an instant; each device counts its own. */
  untold(untilMs: number): Draft[] {
    const counts = new Map<string, number>();
    const inOrder = this.drafts.filter((d) => d.typedMs <= untilMs).sort((a, b) => a.typedMs - b.typedMs);
    return inOrder.map((d) => {
      const seq = (counts.get(d.where) ?? 0) + 1;
      counts.set(d.where, seq);
      return { ...d, entry: { ...d.entry, device: { ...(d.entry['device'] as object), seq } } }; // as `tell` made it
    });
  }
}

const sent = z.object({ payload: z.object({ lines: z.array(z.object({ lots: z.array(z.string()) })) }) });
const linesOf = (entry: unknown): readonly { readonly lots: readonly string[] }[] => sent.parse(entry).payload.lines;

/** The deviation that a record of one subject opens. */
export const deviationOf = (entry: string): string => derivedId(entry, 'deviation');

export const g = (grams: number | string) => ({ figure: String(grams), unit: 'g' });
export const celsius = (figure: string) => ({ figure, unit: temperatureUnits[0] });
export const minutes = (count: number) => ({ figure: String(count), unit: 'min' });
export const pieces = (count: number) => ({ figure: String(count), unit: 'piece' });
