import type { Need, State } from '@bakehouse/records';
import { refuse, type Refused } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';
import type { Job } from './types.js';

/** Who did it, where that is somebody else than who sends: those who send are known already. */
const doerOf = ({ read, asker }: Job): string | undefined =>
  read.ok && read.envelope.doneBy !== null && read.envelope.doneBy !== asker.person ? read.envelope.doneBy : undefined;

/** The device that an entry says it was saved on. */
const deviceOf = ({ read }: Job): string | null => (read.ok ? read.envelope.device.id : null);

/** The people that these entries name as having done it. */
export const doersOf = (jobs: readonly Job[]): readonly Need[] =>
  jobs.flatMap((job) => {
    const id = doerOf(job);
    return id === undefined ? [] : [{ in: 'person', id }];
  });

/** Of the devices that entries from outside any device name, those that were ever enrolled here. Asked only where one is named. */
export async function loadDevices(client: ClientBase, organisation: string, jobs: readonly Job[]): Promise<ReadonlySet<string>> {
  const named = jobs.filter((j) => j.asker.device === null).flatMap((j) => deviceOf(j) ?? []);
  if (named.length === 0) return new Set();
  const { rows } = await client.query<Pick<TableRow<'device'>, 'id'>>({
    name: 'devices named',
    text: 'SELECT id FROM device WHERE organisation = $1 AND id = ANY($2)',
    values: [organisation, [...new Set(named)]],
  });
  return new Set(rows.map((r) => r.id));
}

/**
 * Refuses an entry that names a doer who is none of the organisation's people, or another device than the one that sends it. People who have left
 * still count. From outside any device (a tablet that was revoked is one) any of the organisation's devices may be named.
 */
export function senderProblem(job: Job, people: readonly State[], devices: ReadonlySet<string>): Refused | undefined {
  const doer = doerOf(job);
  if (doer !== undefined && !people.some((state) => state.get('person', doer))) return refuse('unknown-person', 'doneBy');
  const device = deviceOf(job);
  if (device === null || device === job.asker.device) return undefined;
  if (job.asker.device !== null) return refuse('another-device', 'device.id');
  return devices.has(device) ? undefined : refuse('unknown-device', 'device.id');
}
