import { describe, expect, it } from '@jest/globals';
import { collectionNames, snapshotOf, type KindName, type PayloadFor, type Snapshot } from '@bakehouse/records';
import { bakehouse, celsius, g, materials, night, places, plan, points, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import type { Fate, SavedEntry } from '../store/saved-entry.js';
import { project } from './optimistic.js';

const bakeDay = '2026-11-25';
const tam = uuid(1);
const book = { organisation: uuid(2), id: uuid(3), zone: 'Europe/London', size: 0 };
const toSend: Fate = { as: 'to-send' };

/** Entries as a tablet saves them, and the same through the server's book of the domain's own scenarios. */
class Both {
  readonly server = bakehouse();
  readonly before = this.server.snapshot();
  readonly saved: SavedEntry[] = [];

  record<K extends KindName>(
    kind: K,
    payload: PayloadFor<K>,
    time: string,
    told: { corrects?: string; words?: Record<string, string> } = {},
  ) {
    const id = uuid(0x200000 + this.saved.length);
    const done = this.server.record(kind, payload, { at: night(time), id, doneBy: tam, ...told });
    this.save(id, kind, payload, time, told);
    return done;
  }

  save(
    id: string,
    kind: string,
    payload: unknown,
    time: string,
    { corrects, words }: { corrects?: string; words?: Record<string, string> } = {},
    fate: Fate = toSend,
  ): void {
    const salted = words && Object.fromEntries(Object.entries(words).map(([key, text]) => [key, { text, salt: '00'.repeat(16) }]));
    const seq = this.saved.length;
    const entry = {
      id,
      kind,
      version: 1,
      occurredAt: { at: night(time), precision: 'exact' },
      doneBy: tam,
      device: { id: null, seq, clockErrorMs: null },
      ...(corrects === undefined ? {} : { corrects }),
      ...(salted ? { words: salted } : {}),
      payload,
    };
    this.saved.push({
      seq,
      id,
      book: book.id,
      bookType: 'site',
      entry,
      typedBy: tam,
      savedAt: new Date(night(time)).toISOString(),
      signature: null,
      attempts: 0,
      fate,
    });
  }

  /** The same entries, with another fate. */
  fated(fate: (i: number) => Fate): SavedEntry[] {
    return this.saved.map((e, i) => ({ ...e, fate: fate(i) }));
  }
}

const byId = (s: Snapshot) =>
  Object.fromEntries(collectionNames.map((name) => [name, [...s[name]].sort((a, b) => (a.id < b.id ? -1 : 1))]));
const core = (load: string, figure: string): PayloadFor<'reading-taken'> => ({
  subjectType: 'load',
  subject: load,
  point: points.bloomerCore,
  measured: 'core',
  parameter: 'core temperature',
  instrument: null,
  value: celsius(figure),
  yes: null,
  seconds: null,
});

function badLoad() {
  const both = new Both();
  const make = both.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay, plannedMg: 41_450_000 },
    '02:30',
  ).id;
  const run = uuid(0xe11);
  both.record(
    'divided',
    {
      make,
      quantity: null,
      oldDough: null,
      scrap: null,
      runs: [{ run, product: materials.bloomer, heads: null, pieces: 12, scaling: g('465') }],
    },
    '03:40',
  );
  const load = both.record(
    'load-in',
    { oven: places.deckOven, deck: null, plan, bakeDay, setting: celsius('230'), minutes: 28, lines: [{ run, pieces: 12 }] },
    '04:44',
  ).id;
  const reading = both.record('reading-taken', core(load, '87.9'), '05:12');
  return { both, make, run, load, reading };
}

describe('what the tablet projects', () => {
  it('is what the server says: the same verdicts and the same rows', () => {
    const { both, reading } = badLoad();
    const seen = project(both.before, book, both.saved);
    expect(seen.verdicts.get(reading.id)).toEqual({ ok: true, outcome: reading.outcome, by: 'device' });
    expect(byId(seen.snapshot())).toEqual(byId(both.server.snapshot()));
  });

  it('says before it is saved what an entry will meet, and changes nothing by that', () => {
    const { both, load } = badLoad();
    const seen = project(both.before, book, both.saved);
    both.save(uuid(0x300000), 'reading-taken', core(load, '94.4'), '05:20');
    const before = byId(seen.snapshot());
    expect(seen.judge(both.saved.at(-1)?.entry, tam, '2026-11-25T05:20:00.000Z')).toMatchObject({
      ok: true,
      outcome: { verdict: 'within' },
    });
    expect(seen.judge({ ...both.saved.at(-1)?.entry, payload: core(uuid(0x999), '94.4') }, tam, '2026-11-25T05:20:00.000Z')).toMatchObject({
      ok: false,
      problem: 'unknown-subject',
    });
    expect(seen.judge({ kind: 'no-such-kind' }, tam, '2026-11-25T05:20:00.000Z')).toMatchObject({ ok: false, problem: 'unknown-kind' });
    expect(byId(seen.snapshot())).toEqual(before);
  });

  it('shows an entry once: pending, recorded but not shown, or shown by the snapshot', () => {
    const { both } = badLoad();
    const all = byId(both.server.snapshot());
    const recorded = (i: number, shown: boolean): Fate => {
      const verdict = project(both.before, book, both.saved).verdicts.get(both.saved[i]?.id ?? '');
      return {
        as: 'recorded',
        book: book.id,
        seq: i,
        recordedAt: both.saved[i]?.savedAt ?? '',
        outcome: verdict?.ok ? verdict.outcome : null,
        shown,
      };
    };
    expect(
      byId(
        project(
          both.before,
          book,
          both.fated((i) => recorded(i, false)),
        ).snapshot(),
      ),
    ).toEqual(all);
    expect(
      byId(
        project(
          both.before,
          book,
          both.fated((i) => (i < 2 ? recorded(i, false) : toSend)),
        ).snapshot(),
      ),
    ).toEqual(all);
    expect(
      byId(
        project(
          both.server.snapshot(),
          book,
          both.fated((i) => recorded(i, true)),
        ).snapshot(),
      ),
    ).toEqual(all);
  });

  it('never puts an old row back over a correction that somebody else made since the snapshot', () => {
    const { both, reading } = badLoad();
    const now = both.server.snapshot();
    const elsewhere = { ...now, reading: now.reading.map((r) => ({ ...r, figure: '97.9', corrected: true })) };
    const shown = both.fated((i) => ({
      as: 'recorded',
      book: book.id,
      seq: i,
      recordedAt: '2026-11-25T05:12:00.000Z',
      outcome: i === 3 ? reading.outcome : {},
      shown: true,
    }));
    expect(
      project(elsewhere, book, shown)
        .snapshot()
        .reading.map((r) => r.figure),
    ).toEqual(['97.9']);
  });

  it('leaves out what was refused, and says of what builds on it that it will be', () => {
    const { both, load, reading } = badLoad();
    const refused: Fate = {
      as: 'refused',
      problem: 'unknown-run',
      title: 't',
      detail: 'd',
      field: null,
      acceptable: null,
      archived: false,
    };
    const seen = project(
      both.before,
      book,
      both.fated((i) => (i === 2 ? refused : toSend)),
    );
    expect(seen.snapshot().load).toEqual([]);
    expect(seen.verdicts.get(load)).toBeUndefined();
    expect(seen.verdicts.get(reading.id)).toMatchObject({ ok: false, problem: 'unknown-subject' });
  });

  it('replaces the content of what is corrected, judged by the limit of the original, and keeps the deviation', () => {
    const { both, load, reading } = badLoad();
    both.record('reading-taken', core(load, '93.9'), '05:12', { corrects: reading.id, words: { reason: 'misread' } });
    const shown = both.fated((i) =>
      i < 4
        ? {
            as: 'recorded',
            book: book.id,
            seq: i,
            recordedAt: '2026-11-25T05:12:00.000Z',
            outcome: i === 3 ? reading.outcome : {},
            shown: true,
          }
        : toSend,
    );
    const seen = project(badLoad().both.server.snapshot(), book, shown.slice(3)).snapshot();
    expect(seen.reading.map((r) => [r.figure, r.verdict, r.corrected])).toEqual([['93.9', 'within', true]]);
    expect(seen.deviation).toHaveLength(1);
  });

  it('takes back the rows of a withdrawn entry, except deviations', () => {
    const { both, reading } = badLoad();
    both.record('entry-withdrawn', {}, '05:15', { corrects: reading.id, words: { reason: 'another load' } });
    const seen = project(both.before, book, both.saved);
    expect(byId(seen.snapshot())).toEqual(byId(both.server.snapshot()));
    expect([seen.snapshot().reading.length, seen.snapshot().deviation.length]).toEqual([0, 1]);
  });

  it('does not read an entry of another book, nor falls over one that it cannot read', () => {
    const { both } = badLoad();
    const strange = { ...both.saved[0], seq: 9, id: uuid(0x999999), entry: { kind: 'from-the-future' } } as SavedEntry; // every other field is of a saved entry
    const seen = project(both.before, { ...book, id: uuid(77) }, both.saved);
    expect(seen.snapshot()).toEqual(snapshotOf(both.before));
    expect(project(both.before, book, [...both.saved, strange]).verdicts.get(strange.id)).toMatchObject({
      ok: false,
      problem: 'unknown-kind',
    });
  });

  it('works out itself what a newer service says in a form that it cannot read', () => {
    const { both, reading } = badLoad();
    const seen = project(
      both.before,
      book,
      both.fated((i) => ({
        as: 'recorded',
        book: book.id,
        seq: i,
        recordedAt: both.saved[i]?.savedAt ?? '',
        outcome: { newer: true },
        shown: false,
      })),
    );
    expect(seen.verdicts.get(reading.id)).toEqual({ ok: true, outcome: reading.outcome, by: 'device' });
    expect(byId(seen.snapshot())).toEqual(byId(both.server.snapshot()));
  });

  it('goes on from where it was, and says when it cannot', () => {
    const { both } = badLoad();
    const seen = project(both.before, book, both.saved.slice(0, 2));
    expect(seen.goOn(both.saved)).toBe(true);
    expect(byId(seen.snapshot())).toEqual(byId(both.server.snapshot()));
    const waiting = both.fated((i) => (i === 0 ? { as: 'waiting', waitingFor: [] } : toSend));
    expect(seen.goOn(waiting)).toBe(true);
    const refused = both.fated((i) =>
      i === 3 ? { as: 'refused', problem: 'p', title: 't', detail: 'd', field: null, acceptable: null, archived: false } : toSend,
    );
    expect(seen.goOn(refused)).toBe(false);
    expect(seen.goOn(both.saved.slice(0, 3))).toBe(false);
    expect(byId(seen.snapshot())).toEqual(byId(both.server.snapshot()));
  });

  it('remembers which pending entry makes which row, for what builds on it', () => {
    const { both, make, run } = badLoad();
    const { madeBy } = project(both.before, book, both.saved);
    expect([madeBy.get(make), madeBy.get(run), madeBy.get(materials.flour)]).toEqual([make, both.saved[1]?.id, undefined]);
  });
});
