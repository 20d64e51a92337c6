import type { NewEntryOf, PayloadFor } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { bakehouse, celsius, places, plan, points, whiteVersion } from '../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../test/fixtures/driver.js';
import { countingIds, HandTimer, newStore } from '../../../test/support/offline-device.js';
import { FakeDoor } from '../../../test/support/offline-door.js';
import { Kept } from './store/kept.js';
import { Outbox } from './store/outbox.js';
import type { NightAnswer } from './night-answer.js';
import { Tablet, type TabletPorts } from './tablet.js';

const site = { id: uuid(3), organisation: uuid(2), name: 'Bakehouse', zone: 'Europe/London', dayStarts: '00:00' };
const day = '2026-11-25';
const tam = uuid(1);
const begin = {
  kind: 'make-begun' as const,
  payload: { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: day, plannedMg: 41_450_000 },
};

/** A tablet beside a server that stands still but for its entries; `reload` opens it again on the same store. */
async function setUp() {
  const open = newStore();
  const database = await open();
  const [door, timer] = [new FakeDoor(), new HandTimer()];
  const clock = {
    at: new Date('2026-11-25T02:30:00.000Z'),
    now(): Date {
      return this.at;
    },
  };
  const server = { reached: true, size: 0, asOf: '2026-11-25T02:29:48.000Z', rows: bakehouse().snapshot() };
  const changes: Pick<NightAnswer, 'rows' | 'gone'>[] = [];
  const asked: (string | null)[] = [];
  const night: TabletPorts['night'] = (_site, of, held) => {
    asked.push(held?.tag ?? null);
    if (!server.reached) return Promise.resolve(undefined);
    const tag = `"${of} ${server.size} ${JSON.stringify(server.rows).length}"`;
    if (held?.tag === tag) return Promise.resolve({ changed: false, asOf: server.asOf });
    const value = {
      site,
      day: of,
      asOf: server.asOf,
      sizes: [{ book: 'site', name: 'Bakehouse', size: server.size }],
      version: `of ${tag}`,
      since: null,
      rows: server.rows as unknown as NightAnswer['rows'], // rows as JSON
      gone: {},
    };
    const differs = held && changes.shift();
    return Promise.resolve({ changed: true, value: differs ? { ...value, since: held.version, ...differs } : value, tag });
  };
  const ports = async (): Promise<TabletPorts> => {
    const again = await open();
    return { outbox: new Outbox(again), kept: new Kept(again), door, clock, ids: countingIds, timer, night, device: uuid(9) };
  };
  return {
    door,
    clock,
    server,
    changes,
    asked,
    database,
    ports,
    tablet: await Tablet.open(await ports(), site, day),
    reload: async () => Tablet.open(await ports(), site, day),
  };
}

const core = (subject: string): NewEntryOf<'reading-taken'> => ({
  kind: 'reading-taken',
  payload: {
    subjectType: 'make',
    subject,
    point: points.dough,
    measured: 'dough',
    parameter: 'dough temperature',
    instrument: null,
    value: celsius('28.5'),
    yes: null,
    seconds: null,
  },
});

describe('a tablet', () => {
  it('says what comes of an entry, saves it, shows it and sends it', async () => {
    const { tablet, door } = await setUp();
    await tablet.refresh();
    const done = await tablet.record(begin, tam);
    expect(done).toMatchObject({ ok: true, outcome: { name: 'white dough' } });
    expect(tablet.state.snapshot.make.map((m) => [m.formulaName, m.doneBy])).toEqual([['white dough', tam]]);
    await tablet.refresh();
    expect(door.ledger).toEqual(tablet.state.recent.map((e) => e.id));
    expect(tablet.state.pending).toEqual([]);
  });

  it('saves what would be refused only where the person says so; then the service decides', async () => {
    const { tablet, door } = await setUp();
    expect(await tablet.record(core(uuid(0x404)), tam)).toMatchObject({ ok: false, problem: 'unknown-subject' });
    expect(tablet.state.recent).toEqual([]);
    const id = await tablet.recordEvenSo(core(uuid(0x404)), tam);
    await tablet.refresh();
    expect([...door.recorded.keys()]).toEqual([id]);
  });

  it('fixes everything when it is saved: number, clock error as measured, offset on the wall, salt, and what it builds on', async () => {
    const { tablet, door } = await setUp();
    await tablet.refresh();
    door.weather = 'never-arrives';
    const make = await tablet.record(begin, tam);
    await tablet.record({ ...core(make.ok ? make.id : ''), words: { note: '  warm tonight ', empty: ' ' } }, tam);
    const [reading] = tablet.state.recent;
    expect(reading?.entry).toMatchObject({
      after: [make.ok ? make.id : ''],
      device: { id: uuid(9), seq: 1, clockErrorMs: 12_000 },
      occurredAt: { at: '2026-11-25T02:30:00.000+00:00', precision: 'exact' },
      doneBy: tam,
      words: { note: { text: 'warm tonight', salt: expect.stringMatching(/^[0-9a-f]{32}$/) } },
    });
    expect(Object.keys((reading?.entry['words'] ?? {}) as object)).toEqual(['note']);
  });

  it('goes by true time where its clock is three hours fast; the entry keeps what the clock said', async () => {
    const { tablet, clock, server } = await setUp();
    clock.at = new Date('2026-11-25T05:30:00.000Z');
    server.asOf = '2026-11-25T02:30:00.000Z';
    await tablet.refresh();
    expect(tablet.now().toISOString()).toBe('2026-11-25T02:30:00.000Z');
    await tablet.record(begin, tam);
    await tablet.record({ ...begin, at: new Date('2026-11-25T02:10:00.000Z') }, tam);
    await tablet.record({ ...begin, at: new Date('2026-11-25T02:20:00.000Z'), precision: 'about' }, tam);
    expect(tablet.state.recent.map((r) => r.entry['occurredAt']).reverse()).toEqual([
      { at: '2026-11-25T05:30:00.000+00:00', precision: 'exact' },
      { at: '2026-11-25T02:10:00.000+00:00', precision: 'exact', clock: 'wall' },
      { at: '2026-11-25T02:20:00.000+00:00', precision: 'about' },
    ]);
    expect(tablet.state.snapshot.make.map((m) => m.at)).toEqual([
      '2026-11-25T02:30:00.000Z',
      '2026-11-25T02:10:00.000Z',
      '2026-11-25T02:20:00.000Z',
    ]);
  });

  it('takes a slow answer for no change of its clock', async () => {
    const { tablet, clock, server } = await setUp();
    await tablet.refresh();
    const fetched = server.rows;
    Object.defineProperty(server, 'rows', {
      get: () => {
        clock.at = new Date(clock.at.getTime() + 4_000); // the network took that long
        return fetched;
      },
    });
    server.asOf = clock.at.toISOString().replace(':30:00', ':29:50');
    await tablet.refresh();
    expect(tablet.state.clockErrorMs).toBe(12_000);
    server.asOf = clock.at.toISOString();
    await tablet.refresh();
    expect(tablet.state.clockErrorMs).toBe(2_000);
  });

  it('saves in UTC where this browser does not know the site’s zone: what is typed is kept all the same', async () => {
    const { ports } = await setUp();
    const tablet = await Tablet.open(await ports(), { ...site, zone: 'No/Where' }, day);
    await tablet.refresh();
    await tablet.record(begin, tam);
    expect(tablet.state.recent[0]?.entry['occurredAt']).toEqual({ at: '2026-11-25T02:30:00.000+00:00', precision: 'exact' });
  });

  it('starts again without a network with its snapshot and everything that was typed', async () => {
    const { tablet, door, server, reload } = await setUp();
    await tablet.refresh();
    server.reached = false;
    door.weather = 'never-arrives';
    await tablet.record(begin, tam);
    const again = await reload();
    await again.refresh();
    expect(again.state).toMatchObject({ connected: false, asOf: '2026-11-25T02:29:48.000Z' });
    expect(again.state.snapshot.make).toHaveLength(1);
    expect(again.state.pending).toHaveLength(1);
    expect(again.state.snapshot.formulaVersion.length).toBeGreaterThan(0);
  });

  it('keeps on showing what is recorded until the server shows it, and then once', async () => {
    const { tablet, server } = await setUp();
    await tablet.refresh();
    await tablet.record(begin, tam);
    await tablet.refresh();
    expect(tablet.state.snapshot.make).toHaveLength(1);
    const { make, lot } = tablet.state.snapshot;
    server.rows = { ...server.rows, make, lot };
    server.size = 1;
    await tablet.refresh();
    expect(tablet.state.snapshot.make).toHaveLength(1);
    expect(tablet.state.recent[0]?.fate).toMatchObject({ as: 'recorded', shown: true });
  });

  it('lets go of old entries once they are shown', async () => {
    const { tablet, server, clock } = await setUp();
    await tablet.refresh();
    await tablet.record(begin, tam);
    server.size = 1;
    await tablet.refresh();
    clock.at = new Date('2026-11-26T15:00:00.000Z');
    server.asOf = '2026-11-26T15:00:00.000Z';
    await tablet.refresh();
    expect(tablet.state.recent).toEqual([]);
    expect(tablet.state.damage).toEqual([]);
  });

  it('shows what was refused to a person, and follows what they answer', async () => {
    const { tablet, door } = await setUp();
    await tablet.refresh();
    door.weather = 'never-arrives';
    const done = await tablet.record(begin, tam);
    door.refuses.add(done.ok ? done.id : '');
    door.weather = 'fine';
    await tablet.refresh();
    const [refused] = tablet.state.refused;
    expect(refused?.fate).toMatchObject({ as: 'refused', title: 'Not permitted' });
    expect(tablet.state.snapshot.make).toEqual([]);
    door.refuses.clear();
    if (refused) await tablet.answer(refused, 'again');
    await tablet.refresh();
    expect(tablet.state.refused).toEqual([]);
    expect(tablet.state.snapshot.make).toHaveLength(1);
  });

  it('asks for a signature over exactly what it sends, and saves nothing where there is none', async () => {
    const { tablet, door } = await setUp();
    await tablet.refresh();
    const signed: unknown[] = [];
    const [version] = tablet.state.snapshot.formulaVersion;
    if (!version) throw new Error('the house has no formula');
    const payload: PayloadFor<'formula-approved'> = {
      formula: uuid(0xd77),
      number: 1,
      name: 'new',
      type: 'dough',
      content: version.content,
    };
    const draft = { kind: 'formula-approved' as const, payload };
    expect(await tablet.recordSigned(draft, tam, () => Promise.resolve(undefined))).toBeUndefined();
    expect(tablet.state.recent).toEqual([]);
    const done = await tablet.recordSigned(draft, tam, (entry) => Promise.resolve(signed.push(entry) > 0 ? 'one-use token' : undefined));
    expect(done).toMatchObject({ ok: true });
    await tablet.refresh();
    expect(signed).toEqual([tablet.state.recent[0]?.entry]);
    expect([...door.recorded.values()].map((bytes) => JSON.parse(bytes))).toEqual(signed);
    expect(JSON.stringify(signed)).not.toContain('one-use token');
  });

  it('asks with the tag of what it holds, and goes on with it where nothing changed: as of now, by the clock of now', async () => {
    const { tablet, server, asked, clock, reload } = await setUp();
    await tablet.refresh();
    const { rows } = tablet.state;
    [server.asOf, clock.at] = ['2026-11-25T02:30:18.000Z', new Date('2026-11-25T02:30:30.000Z')];
    await tablet.refresh();
    expect(tablet.state).toMatchObject({ connected: true, asOf: server.asOf, clockErrorMs: 12_000 });
    expect(tablet.state.rows).toBe(rows);
    const again = await reload();
    expect(again.state.asOf).toBe(server.asOf);
    server.size = 1;
    await again.refresh();
    expect(again.state.sizes).toContainEqual({ book: 'site', name: 'Bakehouse', size: 1 });
    await again.choose('2026-11-24');
    expect(asked).toEqual([null, asked[1], asked[1], null]);
    expect(asked[1]).not.toBeNull();
  });

  it('takes what changed on top of what it holds, and has both when it is opened again', async () => {
    const { tablet, server, changes, reload } = await setUp();
    await tablet.refresh();
    const [oven, mixer = '', ...others] = tablet.state.snapshot.place.map((p) => p.id);
    server.size = 1;
    changes.push({ rows: { place: [{ id: mixer, name: 'Named anew' }] }, gone: { place: [oven ?? ''] } });
    await tablet.refresh();
    for (const { snapshot } of [tablet.state, (await reload()).state]) {
      expect(snapshot.place.map((p) => p.id).sort()).toEqual([mixer, ...others].sort());
      expect(snapshot.place.find((p) => p.id === mixer)?.name).toBe('Named anew');
    }
  });

  it('keeps a bake day that was chosen for the rest of the night, over a reload and off line, and no longer', async () => {
    const { tablet, server, clock, reload } = await setUp();
    await tablet.refresh();
    server.reached = false;
    await tablet.choose('2026-11-26');
    expect(tablet.state.day).toBe('2026-11-26');
    expect((await reload()).state.day).toBe('2026-11-26');
    clock.at = new Date('2026-11-25T14:30:01.000Z');
    expect((await reload()).state.day).toBe(day);
  });

  it('does not take another business’s night for its own', async () => {
    const { tablet, ports } = await setUp();
    await tablet.refresh();
    const other = await Tablet.open(await ports(), { ...site, organisation: uuid(0x222) }, day);
    expect(other.state.asOf).toBeNull();
  });
});
