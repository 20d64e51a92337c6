import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';

export type NewSignature = Omit<TableRow<'signatureToken'>, 'organisation' | 'usedBy'>;

export async function keepSignature(client: ClientBase, organisation: string, s: NewSignature): Promise<void> {
  await client.query(
    'INSERT INTO signature_token (organisation, token_hash, person, input_hash, meaning, signed_at, expires_at) VALUES ($1, $2, $3, $4, $5, $6, $7)',
    [organisation, s.tokenHash, s.person, s.inputHash, s.meaning, s.signedAt, s.expiresAt],
  );
}
