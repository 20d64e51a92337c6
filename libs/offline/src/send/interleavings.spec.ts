import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { draft, HandTimer, newId, newStore, openOutbox } from '../../../../test/support/offline-device.js';
import { FakeDoor, type Weather } from '../../../../test/support/offline-door.js';
import type { Outbox } from '../store/outbox.js';
import { Sender } from './sender.js';

type Step =
  | { readonly do: 'save'; readonly onLast: boolean; readonly by: 'tam' | 'oona' }
  | { readonly do: 'send'; readonly weather: Weather }
  | { readonly do: 'reload' }
  | { readonly do: 'send-and-save' }
  | { readonly do: 'two-tabs' };

const step = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({ do: fc.constant('save' as const), onLast: fc.boolean(), by: fc.constantFrom('tam' as const, 'oona' as const) }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant('send' as const),
      weather: fc.constantFrom<Weather>('fine', 'reply-lost', 'never-arrives', 'busy', 'signed-off'),
    }),
  },
  { weight: 2, arbitrary: fc.constantFrom<Step>({ do: 'reload' }, { do: 'send-and-save' }, { do: 'two-tabs' }) },
);

/** One run: whatever happens, then fine weather until nothing is left to send. */
async function run(steps: readonly Step[]) {
  const open = newStore();
  const door = new FakeDoor();
  let outbox = await openOutbox(open);
  let sender = new Sender(outbox, door, new HandTimer());
  const saved: string[] = [];
  const save = async (into: Outbox, by: string, onLast: boolean): Promise<void> => {
    const id = newId();
    const last = saved.at(-1);
    saved.push(id);
    await into.save(draft(id, { typedBy: by, ...(onLast && last !== undefined ? { after: [last] } : {}) }));
  };
  for (const s of steps) {
    door.weather = s.do === 'send' ? s.weather : door.weather;
    if (s.do === 'save') await save(outbox, s.by, s.onLast);
    if (s.do === 'send') await sender.kick();
    if (s.do === 'send-and-save') await Promise.all([sender.kick(), save(outbox, 'tam', true), sender.kick(), save(outbox, 'oona', false)]);
    if (s.do === 'reload') {
      outbox = await openOutbox(open);
      sender = new Sender(outbox, door, new HandTimer());
    }
    if (s.do === 'two-tabs') {
      const other = await openOutbox(open);
      await Promise.all([
        sender.kick(),
        new Sender(other, door, new HandTimer()).kick(),
        save(outbox, 'tam', false),
        save(other, 'oona', false),
      ]);
    }
  }
  door.weather = 'fine';
  for (let round = 0; round < 4; round += 1) await sender.kick();
  return { saved, door, content: await outbox.read() };
}

describe('any interleaving of saving, sending, lost replies, reloads and a second tab', () => {
  it('loses nothing, records nothing twice, and never uses a device number twice', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { maxLength: 24 }), async (steps) => {
        const { saved, door, content } = await run(steps);
        expect([...door.ledger].sort()).toEqual([...saved].sort());
        expect(content.damage).toEqual([]);
        expect(content.entries.map((e) => e.fate.as)).toEqual(saved.map(() => 'recorded'));
        const seqs = content.entries.map((e) => e.seq);
        expect(seqs).toEqual(saved.map((_, i) => i));
        expect(content.entries.map((e) => (e.entry['device'] as { seq: number }).seq)).toEqual(seqs); // the draft wrote it
      }),
      { numRuns: 120 },
    );
  });
});
