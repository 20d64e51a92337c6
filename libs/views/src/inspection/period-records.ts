import type { DoubtView, InspectedReading, InspectionView } from '@bakehouse/contracts';
import { grouped } from '@bakehouse/kernel';
import type { DeviationRows, EntryFacts, PeriodRows, RecordedRow } from './rows.js';

type Event = { readonly at: string; readonly entry: string; readonly doneBy?: string | null };
type Happened = Pick<InspectedReading, 'at' | 'precision' | 'until'>;
type Provenance = Happened & Pick<InspectedReading, 'recordedAt' | 'doneBy' | 'recordedBy' | 'note'>;

/** What was read, and what it is called: looked up once, for every part of the page. Pure. */
export class PeriodRecords<R extends DeviationRows = PeriodRows> {
  private readonly people: ReadonlyMap<string, string | null>;
  private readonly places: ReadonlyMap<string, string>;
  private readonly instruments: ReadonlyMap<string, string>;
  private readonly readings: ReadonlyMap<string, readonly RecordedRow<'reading'>[]>;

  constructor(
    readonly site: InspectionView['site'],
    readonly rows: R,
    private readonly facts: ReadonlyMap<string, EntryFacts>,
    private readonly names: ReadonlyMap<string, string>,
    /** The readings that cannot be trusted, by their ids. */
    private readonly doubts: ReadonlyMap<string, DoubtView>,
    private readonly siteName: (site: string) => string,
  ) {
    this.people = new Map(rows.person.map((p) => [p.id, p.name]));
    this.places = new Map(rows.place.map((p) => [p.id, p.name]));
    this.instruments = new Map(rows.instrument.map((i) => [i.id, i.name]));
    this.readings = grouped(rows.reading, (row) => row.subject);
  }

  fact(entry: string): EntryFacts | undefined {
    return this.facts.get(entry);
  }
  person(id: string | null | undefined): string | null {
    return id ? (this.people.get(id) ?? null) : null;
  }
  place(id: string | null): string | null {
    return id === null ? null : (this.places.get(id) ?? null);
  }
  instrument(id: string | null): string | null {
    return id === null ? null : (this.instruments.get(id) ?? null);
  }
  named(id: string): string | null {
    return this.names.get(id) ?? null;
  }

  /** When it happened and how surely that is known, as the entry behind a row says. */
  happened({ at, entry }: Event): Happened {
    const fact = this.fact(entry);
    return { at, precision: fact?.precision ?? null, until: fact?.until ?? null };
  }

  /** When it happened, when it was recorded, who did it and who wrote it down. */
  provenance(of: Event): Provenance {
    const { entry, doneBy } = of;
    const fact = this.fact(entry);
    const recordedBy = this.person(fact?.person);
    return {
      ...this.happened(of),
      recordedAt: fact?.recordedAt ?? null,
      doneBy: doneBy === undefined || doneBy === null ? recordedBy : this.person(doneBy),
      recordedBy,
      note: fact?.words['note'] ?? null,
    };
  }

  /** Who signed it; who recorded it, where it is not signed. */
  signedBy(entry: string): string | null {
    const fact = this.fact(entry);
    return this.person(fact?.signedBy ?? fact?.person);
  }

  /** What the site is called that recorded it, where that is another one; null where it is this one. */
  elsewhere(entry: string): string | null {
    const book = this.fact(entry)?.book ?? this.site.id;
    return book === this.site.id ? null : this.siteName(book);
  }

  subjectName(type: string, id: string): string | null {
    switch (type) {
      case 'place':
        return this.place(id);
      case 'instrument':
        return this.instrument(id);
      case 'site':
        return this.site.name;
      default:
        return this.named(id);
    }
  }

  /** The readings of the period about one thing, in order of time. */
  readingsOf(subject: string): InspectedReading[] {
    return (this.readings.get(subject) ?? []).map((r) => this.reading(r));
  }

  /** Why a reading cannot be trusted, or null. */
  doubtOn(r: RecordedRow<'reading'>): DoubtView | null {
    return this.doubts.get(r.id) ?? null;
  }

  reading(r: RecordedRow<'reading'>): InspectedReading {
    const {
      id,
      subject,
      subjectType,
      pointKey,
      parameter,
      measured,
      figure,
      unit,
      yes,
      seconds,
      judgedBy,
      verdict,
      class: cls,
      halfWidthMilli,
      corrected,
    } = r;
    return {
      id,
      subject,
      subjectType,
      subjectName: this.subjectName(subjectType, subject),
      ...this.provenance(r),
      point: pointKey,
      parameter,
      measured,
      figure,
      unit,
      yes,
      seconds,
      limit: judgedBy,
      verdict,
      doubt: this.doubtOn(r),
      class: cls,
      instrument: this.instrument(r.instrument),
      halfWidthMilli,
      corrected,
    };
  }
}

/** The ids of subjects that may lie outside the period and need a name: lots, makes, runs, batches, loads. */
export function idsToName(rows: PeriodRows): string[] {
  const subjects = [...rows.reading, ...rows.readingNotTaken, ...rows.deviation].map((r) => r.subject);
  return [
    ...new Set([...subjects, ...rows.receiptDecision.map((d) => d.lot), ...foodLots(rows), ...rows.readingNotTaken.map((x) => x.point)]),
  ];
}

/** Lots that something of the period is about, and that may have come or been made before it. */
const foodLots = ({ hold, disposition, release, recallDecision, refusalEnded, departure, returned }: PeriodRows): string[] => [
  ...[hold, recallDecision, refusalEnded, departure, returned].flatMap((of) => of.map((row) => row.lot)),
  ...disposition.map((d) => d.subject),
  ...release.map((r) => r.batch),
];
