import { link, mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { request as plainly, type IncomingMessage } from 'node:http';
import { request as overTls } from 'node:https';
import path from 'node:path';
import { text } from 'node:stream/consumers';
import { setTimeout as wait } from 'node:timers/promises';
import * as z from 'zod';
import { errorCode } from '../errors/index.js';

const note = z.object({ pid: z.int(), born: z.string().nullable(), instance: z.string(), url: z.string().nullable() });
type Note = z.infer<typeof note>;

/** A data folder that is ours until we end, or the one that another process has. */
export type Claim =
  { readonly ours: true; announce(url: string): Promise<void>; release(): Promise<void> } | { readonly ours: false; readonly url: string };

const patienceMs = 180_000; // a first start makes and fills a database before it answers

/**
 * Takes a data folder for this process. One that is in use is not taken: the process that has it is asked at its address, or awaited
 * while it starts. The note of a process that is gone is cleared away.
 * @throws with a sentence where the folder is held by a process that does not answer
 */
export async function claim(folder: string, instance: string, say: (line: string) => void): Promise<Claim> {
  const file = path.join(folder, 'running.json');
  const mine: Note = { pid: process.pid, born: await birthOf(process.pid), instance, url: null };
  await mkdir(folder, { recursive: true });
  const end = performance.now() + patienceMs;
  for (let told = false; ; await wait(100)) {
    if (await put(file, mine)) return held(file, mine);
    const other = await read(file);
    if (other === undefined || (await gone(other))) await clear(file, other);
    else if (other.url !== null && (await answers(other.url, other.instance))) return { ours: false, url: other.url };
    else if (performance.now() > end)
      throw new Error(
        `${folder} is held by process ${other.pid}, which does not answer. End that process first, or set DATA_DIR to another folder.`,
      );
    else if (!told) {
      told = true;
      say(`${folder} is in use by process ${other.pid}, which is starting or stopping; waiting for it`);
    }
  }
}

/** Whether the service that wrote the note answers at its address. */
async function answers(url: string, instance: string): Promise<boolean> {
  return (await whoAnswers(url))?.instance === instance;
}

/** Whether what answers at an address is this service, whichever. */
export async function isBakehouse(url: string): Promise<boolean> {
  return (await whoAnswers(url)) !== undefined;
}

async function whoAnswers(url: string): Promise<{ instance: string } | undefined> {
  const told: unknown = await asked(`${url}/api/v1/health`)
    .then(JSON.parse)
    .catch(() => undefined);
  return z.object({ service: z.literal('bakehouse-ledger'), instance: z.string() }).safeParse(told).data;
}

/** The certificate is not looked at: it is for another name than this machine's own, and who answers is known by the note's instance. */
function asked(url: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const options = { signal: AbortSignal.timeout(3000), rejectUnauthorized: false, agent: false };
    const take = (response: IncomingMessage): void => void text(response).then(resolve, reject);
    const request = url.startsWith('https:') ? overTls(url, options, take) : plainly(url, options, take);
    request.once('error', reject).end();
  });
}

function held(file: string, mine: Note): Claim {
  const temporary = `${file}.${mine.pid}`;
  return {
    ours: true,
    announce: async (url) => {
      await writeFile(temporary, JSON.stringify({ ...mine, url }));
      await rename(temporary, file);
    },
    release: async () => {
      if ((await read(file))?.instance === mine.instance) await rm(file, { force: true });
    },
  };
}

/** Puts the note in its place whole, unless one is there. */
async function put(file: string, mine: Note): Promise<boolean> {
  const temporary = `${file}.${mine.pid}`;
  await writeFile(temporary, JSON.stringify(mine));
  try {
    await link(temporary, file);
    return true;
  } catch (error) {
    if (errorCode(error) === 'EEXIST') return false;
    return await writeFile(file, JSON.stringify(mine), { flag: 'wx' }).then(
      () => true,
      () => false,
    ); // a file system without links
  } finally {
    await rm(temporary, { force: true });
  }
}

/** Takes away the note that was judged, and puts it back if another came in between. */
async function clear(file: string, judged: Note | undefined): Promise<void> {
  const aside = `${file}.${process.pid}.old`;
  if (
    !(await rename(file, aside).then(
      () => true,
      () => false,
    ))
  )
    return;
  if ((await read(aside))?.instance !== judged?.instance) await link(aside, file).catch(() => undefined);
  await rm(aside, { force: true });
}

async function read(file: string): Promise<Note | undefined> {
  const text = await readFile(file, 'utf8').catch(() => '');
  try {
    return note.parse(JSON.parse(text));
  } catch {
    return undefined;
  }
}

async function gone({ pid, born }: Note): Promise<boolean> {
  if (pid === process.pid) return true; // a container that starts again gives the same number
  try {
    process.kill(pid, 0);
  } catch (error) {
    return errorCode(error) === 'ESRCH';
  }
  const now = await birthOf(pid);
  return born !== null && now !== born;
}

/** Tells a process from a later one of the same number: its start since boot, and the boot. Only Linux says; null elsewhere, and for one that has ended. */
async function birthOf(pid: number): Promise<string | null> {
  const [stat, boot] = await Promise.all(
    [`/proc/${pid}/stat`, '/proc/sys/kernel/random/boot_id'].map((f) => readFile(f, 'utf8').catch(() => '')),
  );
  const fields = stat?.slice(stat.lastIndexOf(')') + 2).split(' ') ?? []; // the name before it may hold spaces
  const [state, started] = [fields[0], fields[19]];
  return started === undefined || state === 'Z' ? null : `${boot?.trim()} ${started}`;
}
