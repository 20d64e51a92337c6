import { kindOf } from '@bakehouse/records';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { tokenHash } from '../../apps/api/src/platform/ids/index.js';
import { inputOf } from '../../apps/api/src/platform/ledger/index.js';
import type { House } from './people.js';

/** Signs what must be signed as `/signatures` does, for a person, without a PIN each time: that path has tests of its own. */
export async function signedBy<E extends { readonly id: string }>(house: House, person: string, entries: readonly E[]): Promise<E[]> {
  const tokens: unknown[][] = [];
  const out = entries.map((e, i) => {
    const kind = kindOf(e);
    const read = kind !== undefined && kind.signed !== null ? kind.read(e) : undefined;
    const input = read?.ok === true ? inputOf(read.envelope) : undefined;
    if (!input) return e;
    const token = `token of ${e.id} ${i}`;
    tokens.push([house.organisation, tokenHash(token), person, input.hash]);
    return { ...e, send: { signature: token } };
  });
  if (tokens.length === 0) return out;
  await connected(house.t.database.ownerUrl, async (client) => {
    for (const values of tokens)
      await client.query(
        `INSERT INTO signature_token (organisation, token_hash, person, input_hash, meaning, signed_at, expires_at)
       VALUES ($1, $2, $3, $4, 'x', now(), '2027-01-01')`,
        values,
      );
  });
  return out;
}
