import { grouped } from '@bakehouse/kernel';
import { lastThere, toldOfAll } from '@bakehouse/records';
import { departuresOnce, type DepartureOfLot } from './departures-once.js';

/** One departure of a lot in scope to somebody who can be rung. */
export interface ContactDeparture extends DepartureOfLot {
  readonly party: string;
  readonly name: string | null;
  readonly contactName: string | null;
  readonly phone: string | null;
  readonly type: string;
  readonly vulnerable: boolean;
  readonly unattended: boolean;
  readonly lotName: string;
  readonly code: string | null;
  readonly pieces: number | null;
  readonly mg: number | null;
  readonly at: string;
  readonly until: string | null;
  readonly channel: string;
}
export interface ContactMade {
  readonly party: string;
  readonly answer: string;
  readonly piecesHeld: number | null;
  /** Who it was and what they said, as it was written down; null where nothing was, or the reader gets no names of contacts. */
  readonly said: string | null;
  readonly at: string;
}
export interface ContactListEntry {
  readonly party: string;
  readonly name: string | null;
  readonly contactName: string | null;
  readonly phone: string | null;
  readonly vulnerable: boolean;
  /** A delivery was left there unattended: it may still be unopened, or somebody may have eaten it. */
  readonly unattended: boolean;
  readonly certain: boolean;
  readonly pieces: number;
  readonly piecesUnknown: boolean;
  readonly lastAt: string;
  readonly lines: readonly {
    /** More than one where any of them may be what went: their names and codes stand together. */
    readonly lots: readonly string[];
    readonly name: string;
    readonly code: string | null;
    readonly pieces: number | null;
    readonly mg: number | null;
    readonly certain: boolean;
    readonly at: string;
  }[];
  readonly calls: readonly ContactMade[];
  /** Told since the last of it went there. */
  readonly reached: boolean;
  readonly order: number;
  readonly why: string;
}

/**
 * The contact list in calling order: contacts with vulnerable consumers, then contacts who certainly have it, then the
 * latest delivery (it is the likeliest to be uneaten), then the most pieces. Common practice, no source.
 */
export function contactList(departures: readonly ContactDeparture[], calls: readonly ContactMade[]): ContactListEntry[] {
  const entries = [...grouped(departures, (d) => d.party).values()].flatMap((all) => {
    const first = all[0];
    if (!first) return [];
    const own = calls.filter((c) => c.party === first.party);
    const lines = departuresOnce(all).map(lineOf);
    const lastAt = lastThere(all);
    return [
      {
        party: first.party,
        name: first.name,
        contactName: first.contactName,
        phone: first.phone,
        vulnerable: first.vulnerable,
        unattended: all.some((d) => d.unattended),
        certain: lines.some((l) => l.certain),
        pieces: lines.reduce((n, l) => n + (l.pieces ?? 0), 0),
        piecesUnknown: lines.some((l) => l.pieces === null),
        ...{ lastAt, calls: own, reached: toldOfAll(own, first.party, lastAt) },
        lines,
      },
    ];
  });
  const before = (a: (typeof entries)[number], b: (typeof entries)[number]): number =>
    Number(b.vulnerable) - Number(a.vulnerable) ||
    Number(b.certain) - Number(a.certain) ||
    (a.lastAt < b.lastAt ? 1 : a.lastAt > b.lastAt ? -1 : 0) ||
    b.pieces - a.pieces ||
    (a.party < b.party ? -1 : 1);
  return entries.sort(before).map((e, i) => ({ ...e, order: i + 1, why: whyOf(e) }));
}

function lineOf({ of, lots, certain }: ReturnType<typeof departuresOnce<ContactDeparture>>[number]): ContactListEntry['lines'][number] {
  const codes = lots.flatMap((d) => (d.code === null ? [] : [d.code]));
  return {
    lots: lots.map((d) => d.lot),
    name: eitherOf(lots.map((d) => d.lotName)),
    code: codes.length === 0 ? null : eitherOf(lots.map((d) => d.code ?? 'no code')),
    pieces: of.pieces,
    mg: of.mg,
    certain,
    at: of.at,
  };
}

const eitherOf = (list: readonly string[]): string => [...new Set(list)].join(' or ');

function whyOf(e: Pick<ContactListEntry, 'vulnerable' | 'unattended' | 'certain' | 'calls' | 'reached'>): string {
  const toldBefore = !e.reached && e.calls.some((c) => c.answer === 'told');
  const why = [
    ...(e.vulnerable ? ['vulnerable consumers eat there'] : []),
    e.certain ? 'it certainly went there' : 'it possibly went there',
    ...(e.unattended ? ['left with nobody present'] : []),
    ...(toldBefore ? ['told before more of it went there: to be rung again'] : []),
  ];
  return why.join('; ');
}
