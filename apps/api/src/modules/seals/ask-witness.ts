import { readCosignature, textOfNote, writeAddCheckpoint } from '@bakehouse/ledger';

/** A witness outside the house: where it is asked, and the key of its cosignatures. */
export interface Witness {
  readonly url: string;
  readonly key: string;
}

/** What is to be cosigned, and how it is shown to extend what the witness has seen. */
export interface ToCosign {
  readonly size: number;
  readonly note: string;
  readonly proofFrom: (size: number) => Promise<readonly Uint8Array[]>;
}

const patienceMs = 15_000;
const longestAnswer = 64 * 1024;

/** A witness holds something else than what is here: the one case in which it is not merely away. */
export class WitnessDiffers extends Error {}

/**
 * Asks a witness for its cosignature (c2sp.org/tlog-witness), beginning with the size that it is thought to have seen. Gives its signature line, checked.
 * @throws with what it answered; `WitnessDiffers` where it has seen another history, or more of it
 */
export async function askWitness({ url, key }: Witness, seal: ToCosign, seenSize: number, signal?: AbortSignal): Promise<string> {
  let oldSize = Math.min(seenSize, seal.size);
  for (let turn = 0; turn < 2; turn += 1) {
    const body = writeAddCheckpoint({ oldSize, proof: await seal.proofFrom(oldSize), note: seal.note });
    const answer = await posted(url, body, signal);
    if (answer.status === 200) return lineIn(answer.text, seal.note, key);
    if (answer.status === 422) throw new WitnessDiffers(`it has seen ${oldSize} records, and those here are not their continuation`);
    if (answer.status !== 409) throw new Error(`it answered ${answer.status}${said(answer.status)}`);
    const size = /^(0|[1-9][0-9]{0,15})\n$/.test(answer.text) ? Number(answer.text) : undefined;
    if (size === undefined) throw new Error('it answered 409 without the size that it has seen');
    if (size > seal.size) throw new WitnessDiffers(`it has seen ${size} records, and here are ${seal.size}`);
    if (size === oldSize) throw new WitnessDiffers(`it has seen another seal over ${size} records`);
    oldSize = size;
  }
  throw new Error('what it has seen changed while it was asked');
}

const said = (status: number): string =>
  status === 404
    ? ': it does not know this book; give it the book’s key'
    : status === 403
      ? ': the seal is not signed with the key that it was given'
      : '';

async function posted(url: string, body: string, signal?: AbortSignal): Promise<{ readonly status: number; readonly text: string }> {
  const patience = AbortSignal.timeout(patienceMs);
  const response = await fetch(`${url.replace(/\/+$/, '')}/add-checkpoint`, {
    method: 'POST',
    body,
    redirect: 'error',
    headers: { 'content-type': 'text/plain; charset=utf-8' },
    signal: signal ? AbortSignal.any([signal, patience]) : patience,
  });
  return { status: response.status, text: await readShort(response) };
}

async function readShort(response: Response): Promise<string> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const part of response.body ?? []) {
    length += part.length;
    if (length > longestAnswer) throw new Error('its answer is too long');
    parts.push(part);
  }
  return Buffer.concat(parts).toString('utf8');
}

/** The line of the witness's key; those of other keys are passed over, as the specification says. */
function lineIn(answer: string, note: string, key: string): string {
  const text = textOfNote(note) ?? '';
  const line = answer.split('\n').find((one) => readCosignature(one, text, key).is === 'good');
  if (line === undefined) throw new Error('its answer holds no good cosignature by the key in WITNESSES');
  return line;
}
