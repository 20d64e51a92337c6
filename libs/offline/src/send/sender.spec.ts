import { describe, expect, it } from '@jest/globals';
import { draft, HandTimer, newId, newStore, openOutbox } from '../../../../test/support/offline-device.js';
import { FakeDoor } from '../../../../test/support/offline-door.js';
import type { Outbox } from '../store/outbox.js';
import type { DoorReply } from './door.js';
import { Sender, type SendingState } from './sender.js';

async function setUp() {
  const [outbox, door, timer] = [await openOutbox(newStore()), new FakeDoor(), new HandTimer()];
  const states: SendingState[] = [];
  return {
    outbox,
    door,
    timer,
    states,
    sender: new Sender(outbox, door, timer, (s) => {
      states.push(s);
    }),
  };
}
const fates = async (outbox: Outbox): Promise<string[]> => (await outbox.read()).entries.map((e) => e.fate.as);

describe('what is refused', () => {
  it('is kept for a person and never stands in the way of what follows', async () => {
    const { outbox, door, sender, timer } = await setUp();
    const [bad, good] = [newId(), newId()];
    door.refuses.add(bad);
    await outbox.save(draft(bad));
    await outbox.save(draft(good));
    await sender.kick();
    expect(await fates(outbox)).toEqual(['refused', 'recorded']);
    expect((await outbox.read()).entries[0]?.fate).toMatchObject({
      problem: 'not-permitted',
      title: 'Not permitted',
      detail: 'Ask somebody.',
      archived: false,
    });
    expect(timer.waits).toBe(false);
  });

  it('is sent again unchanged when a person says so, or set aside', async () => {
    const { outbox, door, sender } = await setUp();
    const id = newId();
    door.refuses.add(id);
    const { seq } = await outbox.save(draft(id));
    await sender.kick();
    door.refuses.clear();
    await outbox.answer(seq, 'again');
    await sender.kick();
    expect(await fates(outbox)).toEqual(['recorded']);
    const other = newId();
    door.refuses.add(other);
    const kept = await outbox.save(draft(other));
    await sender.kick();
    await outbox.answer(kept.seq, 'archived');
    expect((await outbox.read()).entries[1]).toMatchObject({ id: other, fate: { as: 'refused', archived: true } });
  });

  it('where a request is refused as a whole, is found by halves', async () => {
    const { outbox, timer } = await setUp();
    const ids = Array.from({ length: 9 }, newId);
    for (const id of ids) await outbox.save(draft(id));
    const poison = ids[5] ?? '';
    const door = new FakeDoor();
    const picky = {
      send: (to: { typedBy: string }, entries: readonly { id: string }[]): Promise<DoorReply> =>
        entries.some((e) => e.id === poison)
          ? Promise.resolve({
              as: 'refused',
              problem: { problem: 'too-large', title: 'Too much at once', detail: 'Send it in smaller parts.' },
            })
          : door.send(to, entries),
    };
    await new Sender(outbox, { send: (to, entries) => picky.send(to, entries as readonly { id: string }[]) }, timer).kick();
    expect(await fates(outbox)).toEqual(ids.map((id) => (id === poison ? 'refused' : 'recorded')));
  });
});

describe('what waits', () => {
  it('is tried again after the entry that it waits for, by any person', async () => {
    const { outbox, door, sender, timer } = await setUp();
    const [first, second] = [newId(), newId()];
    await outbox.save(draft(second, { after: [first] }));
    await sender.kick();
    expect(await fates(outbox)).toEqual(['waiting']);
    expect(timer.waits).toBe(true);
    await outbox.save(draft(first, { typedBy: 'oona' }));
    await sender.kick();
    expect(await fates(outbox)).toEqual(['recorded', 'recorded']);
    expect(door.ledger).toEqual([first, second]);
  });

  it('for what was refused and never reached the records is shown to a person, and goes once that was sent again', async () => {
    const { outbox, door, sender, timer } = await setUp();
    const [bad, next, last] = [newId(), newId(), newId()];
    door.refuses.add(bad);
    const { seq } = await outbox.save(draft(bad));
    const after = await outbox.save(draft(next, { after: [bad] }));
    await outbox.save(draft(last, { after: [next] }));
    await sender.kick();
    expect(await fates(outbox)).toEqual(['refused', 'refused', 'refused']);
    expect((await outbox.read()).entries[1]?.fate).toMatchObject({
      problem: 'depends-on-refused',
      title: 'It depends on a record that was refused',
      detail: 'Correct the refused record first, then send this one again.',
      archived: false,
    });
    expect(timer.waits).toBe(false);
    door.refuses.clear();
    await outbox.answer(seq, 'again');
    await outbox.answer(after.seq, 'again');
    await sender.kick();
    expect(await fates(outbox)).toEqual(['recorded', 'recorded', 'refused']);
  });

  it('a fault of the service is no refusal: it is tried again', async () => {
    const { outbox, timer } = await setUp();
    await outbox.save(draft(newId()));
    const faulty = {
      send: (): Promise<DoorReply> =>
        Promise.resolve({ as: 'answered', answers: [{ as: 'refused', id: null, problem: 'fault', title: 't', detail: 'd' }] }),
    };
    await new Sender(outbox, faulty, timer).kick();
    expect(await fates(outbox)).toEqual(['waiting']);
    expect(timer.waits).toBe(true);
  });
});

describe('sending', () => {
  it('takes at most 200 at once, in order, and each person’s under their own name', async () => {
    const { outbox, door, sender } = await setUp();
    const mine = Array.from({ length: 205 }, newId);
    for (const id of mine) await outbox.save(draft(id));
    const theirs = newId();
    await outbox.save(draft(theirs, { typedBy: 'oona' }));
    await sender.kick();
    expect(door.requests.map((r) => [r.typedBy, r.ids.length])).toEqual([
      ['tam', 200],
      ['tam', 5],
      ['oona', 1],
    ]);
    expect(door.ledger).toEqual([...mine, theirs]);
  });

  it('waits longer each time it fails, up to a minute, and as long as it is told', async () => {
    const { outbox, door, sender, timer } = await setUp();
    await outbox.save(draft(newId()));
    door.weather = 'never-arrives';
    for (let i = 0; i < 8; i += 1) await sender.kick();
    expect(timer.asked).toEqual([1_000, 2_000, 4_000, 8_000, 16_000, 32_000, 60_000, 60_000]);
    door.weather = 'busy';
    await sender.kick();
    expect(timer.asked.at(-1)).toBe(7_000);
    door.weather = 'fine';
    await sender.wake();
    expect(await fates(outbox)).toEqual(['recorded']);
    expect(timer.waits).toBe(false);
  });

  it('goes on by itself when the pause is over', async () => {
    const { outbox, door, sender, timer } = await setUp();
    await outbox.save(draft(newId()));
    door.weather = 'never-arrives';
    await sender.kick();
    door.weather = 'fine';
    timer.goOff();
    await sender.kick();
    expect(await fates(outbox)).toEqual(['recorded']);
  });

  it('tells whether it got through, and for whom nobody is signed on', async () => {
    const { outbox, door, sender, states } = await setUp();
    await outbox.save(draft(newId()));
    door.weather = 'never-arrives';
    await sender.kick();
    door.weather = 'signed-off';
    await sender.kick();
    expect(states).toEqual([
      { connected: false, needsSignOn: [] },
      { connected: true, needsSignOn: ['tam'] },
    ]);
  });

  it('counts its tries, and sends the signature’s token beside what was fixed', async () => {
    const { outbox } = await setUp();
    await outbox.save((seq) => ({ ...draft(newId())(seq), signature: 'token' }));
    const sent: unknown[] = [];
    const deaf = {
      send: (_to: unknown, entries: readonly unknown[]): Promise<DoorReply> => {
        sent.push(...entries);
        return Promise.resolve({ as: 'unreachable' });
      },
    };
    const sender = new Sender(outbox, deaf, new HandTimer());
    await sender.kick();
    await sender.kick();
    expect(sent).toMatchObject([{ send: { attempt: 1, signature: 'token' } }, { send: { attempt: 2, signature: 'token' } }]);
    const [first, second] = sent as { send: unknown }[]; // what the sender wrote
    expect({ ...first, send: null }).toEqual({ ...second, send: null });
  });
});
