import { derivedId, newEnvelope, onTheWall, temperatureUnits, type SentEnvelope } from '@bakehouse/kernel';
import { kindNamed, payloadOf, pointId, type KindName, type NewEntryOf, type PayloadFor } from '@bakehouse/records';
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

/** Who records something in the story, when and where, and what goes with it. */
export interface EntryOptions extends Pick<NewEntryOf<KindName>, 'words' | 'corrects'> {
  readonly at: number;
  readonly by: PersonKey;
  readonly where?: Where;
  readonly doneBy?: PersonKey;
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
export interface StoryEntry {
  readonly entry: SentEnvelope;
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

/** What a map of the story holds under a key. @throws where nothing was told of it yet */
export function known<K, V>(of: ReadonlyMap<K, V>, key: K): V {
  const found = of.get(key);
  if (found === undefined) throw new Error(`the story does not know ${String(key)}`);
  return found;
}

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
  private readonly entries: StoryEntry[] = [];

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
  tell<K extends KindName>(kind: K, payload: PayloadFor<K>, options: EntryOptions): string {
    const { at, by, where = 'bakehouse', doneBy, words, corrects, after, about = false, typedAt = at, clockErrorMs = 0 } = options;
    const entry = newEnvelope(
      {
        id: options.id ?? this.newId(at),
        kind,
        version: kindNamed(kind).version,
        payload,
        at: onTheWall(new Date(at).toISOString(), this.world.zone),
        precision: about ? 'about' : 'exact',
        doneBy: doneBy === undefined || doneBy === by ? null : this.person[doneBy],
        device: { id: where === 'organisation' ? null : this.world.devices[where], seq: 0, clockErrorMs },
        after,
        corrects,
        words,
      },
      () => Buffer.from(this.chance.bytes(16)).toString('hex'),
    );
    this.entries.push({ where, by, typedMs: Math.max(at, typedAt), again: options.again ?? false, entry });
    return entry.id;
  }

  /** The departures of a lot that are told so far, in the order told: what each is called, and the deviation that it opens if the lot was not to go. */
  departuresOf(lot: string, beforeMs = Number.POSITIVE_INFINITY): { departure: string; deviation: string }[] {
    return this.entries
      .filter((e) => e.entry.kind === 'sent-out' && e.typedMs < beforeMs)
      .flatMap(({ entry }) =>
        (payloadOf('sent-out', entry.payload)?.lines ?? []).flatMap(({ lots }, i) =>
          lots.includes(lot)
            ? [{ departure: derivedId(entry.id, `${i} ${lot}`), deviation: derivedId(entry.id, `deviation ${i} ${lot}`) }]
            : [],
        ),
      );
  }

  /** The records that put a lot on the counter, as far as it is told. */
  displaysOf(lot: string, beforeMs: number): string[] {
    return this.entries
      .filter((e) => e.typedMs < beforeMs)
      .flatMap(({ entry: { id, kind, payload } }) => {
        const put = kind === 'put-on-counter' ? payloadOf(kind, payload) : undefined;
        return put?.lot === lot && put.way === 'on' ? [id] : [];
      });
  }

  /** The lots that a reading with this instrument was about since it was last checked: goods that came, makes, batches, and batches of loads. */
  lotsReadSinceCheckOf(instrument: string): string[] {
    const entries = [...this.entries].sort((a, b) => a.typedMs - b.typedMs).map((e) => e.entry);
    const checked = entries.findLastIndex(
      ({ kind, payload }) => kind === 'instrument-checked' && payloadOf(kind, payload)?.instrument === instrument,
    );
    const since = entries.slice(checked + 1);
    const about = new Set(
      since.flatMap(({ kind, payload }) => {
        if (kind === 'delivery-received')
          return (payloadOf(kind, payload)?.lines ?? []).filter((l) => l.temperature?.instrument === instrument).map((l) => l.lot);
        const read = kind === 'reading-taken' ? payloadOf(kind, payload) : undefined;
        return read?.instrument === instrument ? [read.subject] : [];
      }),
    );
    const batches = since.filter(
      ({ kind, payload }) => kind === 'batch-counted-out' && payloadOf(kind, payload)?.loads.some((load) => about.has(load)),
    );
    const loads = since.flatMap(({ id, kind }) => (kind === 'load-in' ? [id] : []));
    return [...about, ...batches.map((b) => b.id)].filter((id) => !loads.includes(id));
  }

  plant(key: string, what: string, day: string, ids: readonly string[]): void {
    this.planted.set(key, { what, day, ids });
  }

  point(key: string, plan = this.plan): string {
    return pointId(plan, key);
  }

  /** The records in the order in which they reach the door, up to an instant; each device counts its own. */
  untold(untilMs: number): StoryEntry[] {
    const counts = new Map<string, number>();
    const inOrder = this.entries.filter((e) => e.typedMs <= untilMs).sort((a, b) => a.typedMs - b.typedMs);
    return inOrder.map((e) => {
      const seq = (counts.get(e.where) ?? 0) + 1;
      counts.set(e.where, seq);
      return { ...e, entry: { ...e.entry, device: { ...e.entry.device, seq } } };
    });
  }
}

/** The deviation that a record of one subject opens. */
export const deviationOf = (entry: string): string => derivedId(entry, 'deviation');

export const g = (grams: number | string) => ({ figure: String(grams), unit: 'g' }) as const;
export const celsius = (figure: string) => ({ figure, unit: temperatureUnits[0] });
export const minutes = (count: number) => ({ figure: String(count), unit: 'min' }) as const;
export const pieces = (count: number) => ({ figure: String(count), unit: 'piece' }) as const;
