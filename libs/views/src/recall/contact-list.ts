import { grouped } from '@bakehouse/kernel';

/** One departure of a lot in scope to somebody who can be rung. */
export interface ContactDeparture {
  readonly party: string;
  readonly name: string | null;
  readonly contactName: string | null;
  readonly phone: string | null;
  readonly type: string;
  readonly vulnerable: boolean;
  readonly unattended: boolean;
  readonly lot: string;
  readonly lotName: string;
  readonly code: string | null;
  readonly pieces: number | null;
  readonly mg: number | null;
  readonly certain: boolean;
  readonly at: string;
  readonly channel: string;
}
export interface ContactMade {
  readonly party: string;
  readonly answer: string;
  readonly piecesHeld: number | null;
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
    readonly lot: string;
    readonly name: string;
    readonly code: string | null;
    readonly pieces: number | null;
    readonly mg: number | null;
    readonly certain: boolean;
    readonly at: string;
  }[];
  readonly calls: readonly ContactMade[];
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
    return [
      {
        party: first.party,
        name: first.name,
        contactName: first.contactName,
        phone: first.phone,
        vulnerable: first.vulnerable,
        unattended: all.some((d) => d.unattended),
        certain: all.some((d) => d.certain),
        pieces: all.reduce((n, d) => n + (d.pieces ?? 0), 0),
        piecesUnknown: all.some((d) => d.pieces === null),
        lastAt: all.reduce((last, d) => (d.at > last ? d.at : last), ''),
        calls: own,
        reached: own.some((c) => c.answer === 'told'),
        lines: all.map((d) => ({ lot: d.lot, name: d.lotName, code: d.code, pieces: d.pieces, mg: d.mg, certain: d.certain, at: d.at })),
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

function whyOf(e: { vulnerable: boolean; unattended: boolean; certain: boolean }): string {
  const why = [
    ...(e.vulnerable ? ['vulnerable consumers eat there'] : []),
    e.certain ? 'it surely went there' : 'it may have gone there',
    ...(e.unattended ? ['left with nobody present'] : []),
  ];
  return why.join('; ');
}
