import type { ClientBase } from 'pg';

export interface Photo {
  readonly mediaType: string;
  readonly bytes: Buffer;
}
interface NewPhoto extends Photo {
  readonly organisation: string;
  readonly book: string;
  readonly id: string;
  readonly by: string;
  readonly at: string;
}

/** Keeps a photo by its hash; one that is there already is the same one. */
export async function keepPhoto(client: ClientBase, p: NewPhoto): Promise<void> {
  await client.query({
    name: 'keep photo',
    text: 'INSERT INTO photo (organisation, id, book, media_type, bytes, by, at) VALUES ($1, $2, $3, $4, $5, $6, $7) ON CONFLICT DO NOTHING',
    values: [p.organisation, p.id, p.book, p.mediaType, p.bytes, p.by, p.at],
  });
}

export async function photoOf(client: ClientBase, organisation: string, book: string, id: string): Promise<Photo | undefined> {
  const { rows } = await client.query<Photo>({
    name: 'photo',
    text: 'SELECT media_type AS "mediaType", bytes FROM photo WHERE organisation = $1 AND id = $2 AND book = $3',
    values: [organisation, id, book],
  });
  return rows[0];
}
