import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { proposedCode } from '@bakehouse/records';
import request from 'supertest';
import * as z from 'zod';
import { people, type PersonKey } from '../../apps/api/src/demo/data/people.js';
import { unfinished } from '../../apps/api/src/demo/data/names.js';
import { seedIfEmpty } from '../../apps/api/src/demo/index.js';
import { lastBakeDay } from '../../apps/api/src/demo/story/calendar.js';
import { tellStory } from '../../apps/api/src/demo/story/tell-story.js';
import { createOrganisation } from '../../apps/api/src/platform/access/index.js';
import { systemClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { createTestDatabase } from '../support/database.js';
import { Demo, starter } from '../support/demo.js';
import { DemoRecall } from '../support/demo-recall.js';
import { newId } from '../support/entries.js';
import { g } from '../support/premises.js';
import { verified } from '../support/verified.js';

describe('the demo’s bakehouse, a week of it', () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await Demo.found('2026-11-25T09:00:00Z', 1);
  });
  afterAll(() => demo.stop());

  it('verifies, and its projections made again are the same', async () => {
    const { entries, faults } = await verified(demo, demo.made.created);
    expect(faults).toEqual([]);
    expect([...entries.values()].reduce((sum, n) => sum + n, 0)).toBe(demo.made.entries + 2 + Object.keys(people).length); // the first administrator's two, and that each was given a PIN
  });

  it('was written as it happened: no record reached the door before it happened, or a night later', async () => {
    const late = await connected(demo.database.ownerUrl, async (c) =>
      (
        await c.query<{ seconds: number }>(
          `SELECT extract(epoch FROM e.recorded_at - (convert_from(b.bytes, 'UTF8')::json #>> '{input,occurredAt,at}')::timestamptz)::int AS seconds
       FROM entry e JOIN entry_body b USING (organisation, book, seq) ORDER BY 1`,
        )
      ).rows.map((r) => r.seconds),
    );
    expect(late[0]).toBeGreaterThanOrEqual(0);
    expect(late.at(-1)).toBeLessThan(6 * 3600);
    expect(late.filter((s) => s > 720).length).toBeGreaterThanOrEqual(9); // what was caught up, and typed off line
  });

  it('lets each of its people in with the PIN that is printed', async () => {
    const { body } = await request(demo.server).get('/api/v1/sign-on/people').expect(200);
    expect(body.organisation.name).toBe('Pellow & Wick Bakehouse');
    expect(new Set(body.people.map((p: { name: string }) => p.name))).toEqual(new Set(Object.values(people).map((p) => p.name)));
    for (const who of ['lead', 'night', 'counter', 'inspector'] satisfies PersonKey[]) {
      const { body: me } = await (await demo.signOn(who)).get('/me').expect(200);
      expect(me.person.name).toBe(people[who].name);
    }
  });

  it('ends with a call about almond lot A77 that is open, and the figures of the trade’s notes, S9', async () => {
    const { body: lots } = await demo.owner.get('/lots?words=A77').expect(200);
    const ask = {
      id: demo.made.whole.story.newId(Date.parse('2026-11-25T09:00:00Z')),
      suspect: [lots[0].id],
      hazard: 'microbiological',
      hazardName: 'Salmonella',
      practice: true,
    };
    const {
      body: { trace },
    } = await demo.owner.post('/recalls', ask).expect(200);
    expect(trace.suspectBalances[0].balance).toMatchObject({
      received: 12_500_000,
      gone: 7_050_000,
      onHand: { amount: 5_360_000, by: 'count' },
      unaccounted: 90_000,
      accountedBasisPoints: 9928,
      finding: 'not-all-accounted',
    });
    expect(trace.suspectBalances[0].balance.likelyCauses[0]).toEqual({ cause: 'by-recipe', amount: 7_000_000, times: 7 });
    const tartlets = new Set(
      trace.lots
        .filter((l: { type: string; name: string }) => l.type === 'batch' && l.name === 'Almond tartlet')
        .map((l: { id: string }) => l.id),
    );
    type End = { lots: string[]; channel: string; pieces: number | null };
    const sum = (channel: string): number =>
      trace.ends
        .filter((e: End) => e.channel === channel && e.lots.some((lot) => tartlets.has(lot)))
        .reduce((n: number, e: End) => n + (e.pieces ?? 0), 0);
    expect([tartlets.size, ...['counter', 'dispatch', 'stall', 'sample', 'donation'].map(sum)]).toEqual([7, 212, 180, 60, 6, 16]);
    expect(trace.onHand.filter((o: { lot: string }) => tartlets.has(o.lot)).map((o: { amount: number }) => o.amount)).toEqual([72]);
    const rejected = trace.ends
      .filter((e: End) => e.channel === 'waste' && e.pieces !== null)
      .reduce((n: number, e: End) => n + (e.pieces ?? 0), 0);
    expect(rejected).toBe(14);
    const ring = trace.contacts.map((e: { name: string; pieces: number; certain: boolean; unattended: boolean }) => [
      e.name,
      e.pieces,
      e.certain,
      e.unattended,
    ]);
    expect(ring.slice(0, 2)).toEqual([
      ['Quillbrook food bank', 16, true, false],
      ['Quillbrook Primary School', 15, false, false],
    ]);
    expect(
      ring.filter(([name]: [string]) => /caf/i.test(name)).map(([, count, certain]: [string, number, boolean]) => [count, certain]),
    ).toEqual(Array.from({ length: 4 }, () => [45, true]));
    expect(ring.filter((r: [string, number, boolean, boolean]) => r[3])).toHaveLength(1);
  });

  it('says the same lots on hold everywhere, before and after a case on crumb that nobody weighed, and whatever comes late', async () => {
    const at = await DemoRecall.at(demo);
    const held = new Set(await at.truth());
    await at.everywhere([...held], null);
    const add = (lots: readonly string[]): void => lots.forEach((lot) => held.add(lot));

    const [crumb, dough, recall] = [at.inVessel('White crumb bin'), at.make('White dough'), newId()];
    await at.open(crumb, recall);
    add([crumb, ...at.cameOf(at.make('Treacle tarts'))]);
    await at.network();
    await at.everywhere([...held], recall);

    const line = (lot: string) => ({
      material: at.row(lot).material,
      lot,
      quantity: g('200'),
      how: 'weighed' as const,
      type: 'ingredient' as const,
    });
    const weighed = (lot: string) => ({
      kind: 'weighed-in' as const,
      payload: { make: dough, lines: [line(lot)] },
      at: new Date('2026-11-25T02:10Z'),
    });
    const cameOf = at.cameOf(dough);
    expect(cameOf.length).toBeGreaterThanOrEqual(3);
    const use = await at.typed(weighed(crumb), [...held, ...cameOf]);
    add(cameOf);
    await at.network();
    await at.everywhere([...held], recall);

    const rye = at.row(at.inVessel('Rye starter tub')).material;
    const added = [{ material: at.row(crumb).material, lot: crumb, quantity: g('50'), how: 'weighed' as const }];
    const topUp = { vessel: at.vessel('Rye starter tub'), material: rye, kept: null, keptHow: 'estimated' as const, added };
    const content = await at.typed({ kind: 'vessel-topped-up', payload: topUp, at: new Date('2026-11-24T17:00Z') }, [...held]);
    add([content]);
    await at.network();
    await at.everywhere([...held], recall);

    const water = at.called('Water');
    await at.typed({ ...weighed(water), corrects: use, words: { reason: 'the other bin' } }, [crumb]);
    for (const lot of cameOf) held.delete(lot);
    await at.network();
    await at.everywhere([...held], recall);
    await at.typed({ ...weighed(crumb), corrects: use, words: { reason: 'it was the crumb' } }, cameOf);
    add(cameOf);
    await at.network();
    await at.everywhere([...held], recall);

    for (const lot of [at.batches(dough)[0] ?? '', at.batches(at.make('Treacle tarts'))[0] ?? '']) {
      await at.free(recall, lot);
      held.delete(lot);
    }
    await at.network();
    await at.everywhere([...held], recall);
  });
});

const sentOut = z.object({
  kind: z.literal('sent-out'),
  payload: z.object({
    channel: z.string(),
    lines: z.array(z.object({ lots: z.array(z.string()), quantity: z.object({ figure: z.string() }).nullable() })),
  }),
});

describe('the story of the demo', () => {
  const world = (lastDay: string, weeks = 4) => ({
    sites: { bakehouse: 'a', shop: 'b' },
    devices: { bakehouse: 'c', shop: 'd' },
    owner: 'e',
    zone: 'Europe/London',
    lastDay,
    weeks,
  });

  it('is the same for the same day, ids and all', () => {
    const story = (): string => JSON.stringify(tellStory(world('2026-11-25')).history.map((d) => d.entry));
    expect(story()).toBe(story());
  });

  it('plants at least twelve problems in four weeks that end on any day of the week', () => {
    for (let day = 23; day <= 29; day += 1) expect(tellStory(world(`2026-11-${day}`)).planted.size).toBeGreaterThanOrEqual(29);
  });

  it('sends the almond week’s tartlets where they belong, whatever day of the week it ends on', () => {
    for (let day = 23; day <= 29; day += 1) {
      const { history, lastNight, story } = tellStory(world(`2026-11-${day}`, 1));
      const all = [...history, ...lastNight].map((d) => sentOut.safeParse(d.entry)).flatMap((r) => (r.success ? [r.data.payload] : []));
      const mark = proposedCode(`2026-11-${day}`, story.material.tartlet).slice(-4);
      const counted = [...history, ...lastNight].filter(
        (d) => d.entry.kind === 'batch-counted-out' && JSON.stringify(d.entry['payload']).includes(`${mark}"`),
      );
      const batches = new Set(counted.map((d) => d.entry.id));
      const sum = (channel: string): number =>
        all
          .filter((p) => p.channel === channel)
          .flatMap((p) => p.lines)
          .filter((l) => l.lots.some((lot) => batches.has(lot)))
          .reduce((n, l) => n + Number(l.quantity?.figure ?? 0), 0);
      expect([batches.size, ...['counter', 'dispatch', 'stall', 'sample', 'donation'].map(sum)]).toEqual([7, 212, 180, 60, 6, 16]);
    }
  });

  it('keeps an hour an hour over the change of the clocks, and shows the wall’s offset', () => {
    const { history } = tellStory(world('2026-11-08'));
    const at = history.map((d) => String((d.entry['occurredAt'] as { at: string }).at)); // as the story writes it
    expect([at.some((a) => a.endsWith('+01:00')), at.some((a) => a.endsWith('+00:00'))]).toEqual([true, true]);
  });

  it('ends with a morning that is over', () => {
    expect(lastBakeDay(new Date('2026-11-25T07:39:00Z'), 'Europe/London')).toBe('2026-11-24');
    expect(lastBakeDay(new Date('2026-11-25T07:40:00Z'), 'Europe/London')).toBe('2026-11-25');
    expect(lastBakeDay(new Date('2026-07-01T06:40:00Z'), 'Europe/London')).toBe('2026-07-01');
  });
});

describe('a first start', () => {
  it('that was cut off is cleared and made anew by the next; the one after that changes nothing', async () => {
    const database = await createTestDatabase();
    const names = () =>
      connected(
        database.ownerUrl,
        async (c) =>
          (await c.query<{ name: string; entries: number }>('SELECT name, (SELECT count(*) FROM entry) AS entries FROM organisation')).rows,
      );
    await connected(database.ownerUrl, (owner) =>
      createOrganisation(
        owner,
        { name: unfinished, sites: [{ name: 'Mill Lane', zone: 'Europe/London' }], administrator: { name: 'Morwen Pellow', pin: '4071' } },
        systemClock,
      ),
    );
    const said: string[] = [];
    const seed = () => seedIfEmpty({ database, startApp: starter(database), say: (line) => said.push(line), weeks: 1 });
    const lines = await seed();
    const after = await names();
    expect(said[0]).toBe('a demo was being made when it was cut off: making it anew');
    expect(after.map((r) => r.name)).toEqual(['Pellow & Wick Bakehouse']);
    expect(lines.join('\n')).toMatch(/Senara Teague +7316/);
    expect(await seed()).toEqual(lines);
    expect(await names()).toEqual(after);
    await database.drop();
  });
});
