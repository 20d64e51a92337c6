import { refuse, type Refused, type Signature } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import type { Columns, TableRow } from '../database/index.js';
import { tokenHash } from '../ids/index.js';
import type { Job } from './types.js';

interface Token {
  readonly person: string;
  readonly inputHash: Buffer;
  readonly meaning: string;
  readonly signedAt: string;
  readonly expiresAt: string;
  used: string | null;
  readonly hash: Buffer;
}
export interface Signatures {
  readonly byHash: ReadonlyMap<string, Token>;
}

const tokenOf = (job: Job): string | undefined => (job.read.ok ? job.read.envelope.send?.signature : undefined);

/** The one-use tokens that came with these entries, locked in the same transaction. */
export async function loadSignatures(client: ClientBase, organisation: string, jobs: readonly Job[]): Promise<Signatures> {
  const hashes = jobs.flatMap((j) => {
    const t = tokenOf(j);
    return t === undefined ? [] : [tokenHash(t)];
  });
  const byHash = new Map<string, Token>();
  if (hashes.length === 0) return { byHash };
  const { rows } = await client.query<Columns<TableRow<'signatureToken'>>>({
    name: 'tokens',
    text: 'SELECT * FROM signature_token WHERE organisation = $1 AND token_hash = ANY($2) FOR UPDATE',
    values: [organisation, hashes],
  });
  for (const r of rows) {
    byHash.set(r.token_hash.toString('hex'), {
      person: r.person,
      inputHash: r.input_hash,
      meaning: r.meaning,
      signedAt: r.signed_at,
      expiresAt: r.expires_at,
      used: r.used_by,
      hash: r.token_hash,
    });
  }
  return { byHash };
}

/** The signature that an entry carries, if its kind wants one: of this person, for exactly this input, unused and in time. */
export function useSignature(
  signatures: Signatures,
  job: Job,
  inputHash: Buffer,
  now: string,
): Refused | { signature?: Signature; use?: (entry: string) => void } {
  const meaning = job.kind?.signed ?? null;
  if (meaning === null) return {};
  const sent = tokenOf(job);
  if (sent === undefined) return refuse('signature-missing', 'send.signature');
  const token = signatures.byHash.get(tokenHash(sent).toString('hex'));
  const fits =
    token && token.used === null && token.person === job.asker.person && token.inputHash.equals(inputHash) && token.expiresAt >= now;
  if (!fits) return refuse('signature-not-valid', 'send.signature');
  return {
    signature: { person: token.person, meaning, at: token.signedAt },
    use: (entry) => {
      token.used = entry;
    },
  };
}

/** Marks the tokens that this commit used. */
export async function saveSignatures(client: ClientBase, organisation: string, { byHash }: Signatures): Promise<void> {
  const used = [...byHash.values()].filter((t) => t.used !== null);
  if (used.length === 0) return;
  await client.query({
    name: 'spend tokens',
    text: 'UPDATE signature_token t SET used_by = u.entry FROM unnest($2::bytea[], $3::uuid[]) AS u(hash, entry) WHERE t.organisation = $1 AND t.token_hash = u.hash',
    values: [organisation, used.map((t) => t.hash), used.map((t) => t.used)],
  });
}
