import { derivedId } from '@bakehouse/kernel';
import * as z from 'zod';
import type { SettableClock } from '../../platform/clock/index.js';
import type { Founded } from '../found.js';
import { play } from '../player.js';
import type { DoorOverHttp } from './door-over-http.js';

const nightRows = z.object({
  rows: z.object({
    batch: z.array(z.object({ id: z.string(), productName: z.string(), pieces: z.int(), bakedOn: z.string() })),
    release: z.array(z.object({ batch: z.string(), way: z.string() })),
    reading: z.array(z.object({ id: z.string(), figure: z.string().nullable(), verdict: z.string() })),
    deviation: z.array(z.object({ id: z.string(), type: z.string() })),
    departure: z.array(z.object({ lot: z.string() })),
  }),
});

/**
 * The last night of the story through the HTTP API: signing on, weighing in, loads and cores, the bloomers back in the oven, release by rule, the van.
 * Then the night is read back, and what must be there is looked for.
 * @throws where the service did not do what the night needs
 */
export async function runNight(founded: Founded, door: DoorOverHttp, clock: SettableClock, say: (line: string) => void): Promise<number> {
  const { whole, sites } = founded;
  const entries = await play(whole.lastNight, door, clock);
  const day = whole.story.world.lastDay;
  const { rows } = nightRows.parse(await (await door.callerOf('owner')).get(`/sites/${sites.bakehouse}/night?day=${day}`));
  const [low = '', , again = '', deviation = ''] = whole.planted.get('low-core')?.ids ?? [];
  const read = (id: string) => rows.reading.find((r) => r.id === id);
  must(read(low)?.verdict === 'outside' && read(again)?.verdict === 'within', 'the bloomers’ two cores were not judged as the plan says');
  must(deviation === derivedId(low, 'deviation') && rows.deviation.some((d) => d.id === deviation), 'the low core opened nothing');
  const batches = rows.batch.filter((b) => b.bakedOn === day);
  const released = batches.filter((b) => rows.release.some((r) => r.batch === b.id && r.way === 'by-rule'));
  must(
    batches.length > 0 && released.length === batches.length,
    `only ${released.length} of ${batches.length} batches were released by rule`,
  );
  const gone = new Set(rows.departure.map((d) => d.lot));
  say(`  core of the bloomers ${read(low)?.figure} °C, back in the oven, ${read(again)?.figure} °C`);
  say(
    `  ${batches.length} batches, all released by rule; of ${batches.filter((b) => gone.has(b.id)).length} of them something is on its way`,
  );
  return entries;
}

export function must(holds: boolean, otherwise: string): asserts holds {
  if (!holds) throw new Error(`This is not as it must be: ${otherwise}.`);
}
