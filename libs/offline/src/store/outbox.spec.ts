import { describe, expect, it } from '@jest/globals';
import { draft, newId, newStore, openOutbox } from '../../../../test/support/offline-device.js';
import { Outbox } from './outbox.js';

describe('the device’s sequence', () => {
  it('rises strictly, over reloads, over a number drawn for a signature, and over two tabs at once', async () => {
    const open = newStore();
    const [one, two] = [await openOutbox(open), await openOutbox(open)];
    const drawn = await one.reserve();
    await Promise.all([one.save(draft(newId())), two.save(draft(newId())), one.save(draft(newId()))]);
    await one.save(draft(newId()), drawn);
    const later = await (await openOutbox(open)).save(draft(newId()));
    expect(drawn).toBe(0);
    expect((await two.read()).entries.map((e) => e.seq)).toEqual([0, 1, 2, 3, 4]);
    expect(later.seq).toBe(4);
  });

  it('is not used again after everything was let go of', async () => {
    const outbox = await openOutbox(newStore());
    const { seq } = await outbox.save(draft(newId()));
    await outbox.settle(
      new Map([[seq, { as: 'recorded', book: 'site', seq: 0, recordedAt: '2026-11-25T03:01:00.000Z', outcome: {}, shown: false }]]),
    );
    await outbox.shown(new Map([['site', 1]]));
    await outbox.prune('2026-11-26T00:00:00.000Z');
    expect(await outbox.read()).toEqual({ entries: [], damage: [] });
    expect((await outbox.save(draft(newId()))).seq).toBe(1);
  });
});

describe('what is recorded', () => {
  const recorded = {
    as: 'recorded',
    book: 'site',
    seq: 7,
    recordedAt: '2026-11-25T03:01:00.000Z',
    outcome: { ok: 1 },
    shown: false,
  } as const;

  it('is kept until a snapshot shows it, and then for as long as it is wanted', async () => {
    const outbox = await openOutbox(newStore());
    const { seq } = await outbox.save(draft(newId()));
    await outbox.settle(new Map([[seq, recorded]]));
    await outbox.shown(new Map([['site', 7]]));
    await outbox.prune('2026-11-26T00:00:00.000Z');
    expect((await outbox.read()).entries[0]?.fate).toMatchObject({ as: 'recorded', shown: false });
    await outbox.shown(new Map([['site', 8]]));
    await outbox.prune('2026-11-25T00:00:00.000Z');
    expect((await outbox.read()).entries[0]?.fate).toMatchObject({ shown: true });
  });

  it('stays recorded when a late reply says something else', async () => {
    const outbox = await openOutbox(newStore());
    const { seq } = await outbox.save(draft(newId()));
    await outbox.settle(new Map([[seq, recorded]]));
    await outbox.settle(new Map([[seq, { as: 'waiting', waitingFor: [] }]]));
    expect((await outbox.read()).entries[0]?.fate).toEqual(recorded);
  });

  it('is never pruned before it is recorded', async () => {
    const outbox = await openOutbox(newStore());
    await outbox.save(draft(newId()));
    await outbox.prune('2027-01-01T00:00:00.000Z');
    expect((await outbox.read()).entries).toHaveLength(1);
  });
});

describe('letting go', () => {
  const old = async (outbox: Outbox, count: number): Promise<void> => {
    for (let i = 0; i < count; i += 1) {
      const { seq } = await outbox.save(draft(newId()));
      await outbox.settle(
        new Map([[seq, { as: 'recorded', book: 'site', seq: i, recordedAt: '2026-11-25T03:01:00.000Z', outcome: {}, shown: true }]]),
      );
    }
  };

  it('counts each entry once, with two tabs at it at the same time', async () => {
    const open = newStore();
    const [one, two] = [await openOutbox(open), await openOutbox(open)];
    await old(one, 5);
    await Promise.all([one.prune('2026-11-26T00:00:00.000Z'), two.prune('2026-11-26T00:00:00.000Z'), two.save(draft(newId()))]);
    expect(await one.read()).toMatchObject({ entries: [{ seq: 5 }], damage: [] });
  });

  it('lets go of nothing that another tab is still to show', async () => {
    const open = newStore();
    const [one, two] = [await openOutbox(open), await openOutbox(open)];
    await old(one, 2);
    const { seq } = await one.save(draft(newId()));
    const recorded = { as: 'recorded', book: 'site', seq: 2, recordedAt: '2026-11-25T03:02:00.000Z', outcome: {}, shown: false } as const;
    await Promise.all([one.settle(new Map([[seq, recorded]])), two.shown(new Map([['site', 2]])), two.prune('2026-11-26T00:00:00.000Z')]);
    expect(await two.read()).toMatchObject({ entries: [{ seq, fate: { as: 'recorded', shown: false } }], damage: [] });
  });

  it('shows everything that was recorded by the time it writes', async () => {
    const open = newStore();
    const [one, two] = [await openOutbox(open), await openOutbox(open)];
    const { seq } = await one.save(draft(newId()));
    const recorded = { as: 'recorded', book: 'site', seq: 0, recordedAt: '2026-11-25T03:02:00.000Z', outcome: {}, shown: false } as const;
    await Promise.all([one.settle(new Map([[seq, recorded]])), two.shown(new Map([['site', 1]]))]);
    expect((await two.read()).entries).toMatchObject([{ seq, fate: { as: 'recorded', shown: true } }]);
  });

  it('moves counts aside that it cannot read, and keeps the last number', async () => {
    const database = await newStore()();
    const outbox = new Outbox(database);
    await old(outbox, 3);
    await database.put('kept', 'rubbish', 'counts');
    await outbox.prune('2026-11-26T00:00:00.000Z');
    expect(await outbox.read()).toEqual({ entries: [], damage: [{ what: 'counts-unreadable', records: 0, raw: ['rubbish'] }] });
    expect((await outbox.save(draft(newId()))).seq).toBe(3);
  });
});

describe('a store that does not hold what was put in', () => {
  it('tells records that are gone', async () => {
    const database = await newStore()();
    const outbox = new Outbox(database);
    await outbox.save(draft(newId()));
    await outbox.save(draft(newId()));
    await database.delete('outbox', 0);
    expect((await outbox.read()).damage).toEqual([{ what: 'does-not-add-up', records: 1, raw: [] }]);
  });

  it('tells a record that cannot be read, keeps it, and goes on with the others', async () => {
    const database = await newStore()();
    const outbox = new Outbox(database);
    await outbox.save(draft(newId()));
    await outbox.save(draft(newId()));
    await database.put('outbox', { torn: true }, 0);
    const { entries, damage } = await outbox.read();
    expect(entries.map((e) => e.seq)).toEqual([1]);
    expect(damage).toEqual([{ what: 'record-unreadable', records: 1, raw: [{ torn: true }] }]);
    await outbox.tried([0, 1]);
    expect(await database.get('outbox', 0)).toEqual({ torn: true });
  });

  it.each([
    ['torn', 'rubbish'],
    ['of another form', { saved: 'two' }],
  ])('tells counts that are %s, moves them aside, and never takes a number twice', async (_what, spoilt) => {
    const database = await newStore()();
    const outbox = new Outbox(database);
    await outbox.save(draft(newId()));
    await database.put('kept', spoilt, 'counts');
    const before = await outbox.read();
    expect(before.damage).toEqual([{ what: 'counts-unreadable', records: 1, raw: [spoilt] }]);
    expect((await outbox.save(draft(newId()))).seq).toBe(1);
    const after = await outbox.read();
    expect(after.entries).toHaveLength(2);
    expect(after.damage).toEqual([{ what: 'counts-unreadable', records: 2, raw: [spoilt] }]);
  });

  it('that was emptied but for its counts is not read as empty', async () => {
    const database = await newStore()();
    const outbox = new Outbox(database);
    for (let i = 0; i < 3; i += 1) await outbox.save(draft(newId()));
    await database.clear('outbox');
    expect(await outbox.read()).toEqual({ entries: [], damage: [{ what: 'does-not-add-up', records: 3, raw: [] }] });
  });
});
