import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Holds, Maybe, TableRow } from '../../platform/database/index.js';

export type DraftName = 'formula' | 'plan';
export type Content = Readonly<Record<string, unknown>>;
type Draft = TableRow<'draft'>;
interface WithContent {
  readonly content: Holds<Draft['content'], Content>;
}
export interface DraftRow
  extends Pick<Draft, 'id' | 'subject' | 'basedOn' | 'revision' | 'archived' | 'madeBy' | 'madeAt' | 'by' | 'at'>, WithContent {
  readonly madeByName: Maybe<Row<'person'>>['name'];
  readonly byName: Maybe<Row<'person'>>['name'];
}
export interface NewDraft extends Pick<Draft, 'id' | 'subject' | 'basedOn' | 'by' | 'at'>, WithContent {
  readonly type: Holds<Draft['type'], DraftName>;
}
export type Saved = Pick<Draft, 'archived' | 'by' | 'at'> & WithContent;
export type EarlierRow = Pick<TableRow<'draftEarlier'>, 'by' | 'at'> & WithContent;

const columns = `d.id, d.subject, d.based_on AS "basedOn", d.content, d.revision, d.archived, d.made_by AS "madeBy", m.name AS "madeByName", d.made_at AS "madeAt", d.by, b.name AS "byName", d.at
  FROM draft d LEFT JOIN person m ON m.organisation = d.organisation AND m.id = d.made_by LEFT JOIN person b ON b.organisation = d.organisation AND b.id = d.by
  WHERE d.organisation = $1 AND d.type = $2`;

/** Drafts of one type, those in hand or those archived, last saved first. */
export async function draftsOf(client: ClientBase, organisation: string, type: DraftName, archived: boolean): Promise<readonly DraftRow[]> {
  const { rows } = await client.query<DraftRow>(`SELECT ${columns} AND d.archived = $3 ORDER BY d.at DESC, d.id LIMIT 500`, [
    organisation,
    type,
    archived,
  ]);
  return rows;
}

/** One draft, and the other ones in hand of the same formula or plan. */
export async function draftAndOthers(
  client: ClientBase,
  organisation: string,
  type: DraftName,
  id: string,
): Promise<{ draft: DraftRow | undefined; others: readonly DraftRow[] }> {
  const { rows } = await client.query<DraftRow>(
    `SELECT ${columns} AND d.subject = (SELECT o.subject FROM draft o WHERE o.organisation = $1 AND o.type = $2 AND o.id = $3) AND (d.id = $3 OR NOT d.archived) ORDER BY d.at DESC, d.id`,
    [organisation, type, id],
  );
  return { draft: rows.find((r) => r.id === id), others: rows.filter((r) => r.id !== id) };
}

/** Makes a draft; one that is there already under its id stays as it is. False where the id stands for a draft of another type. */
export async function makeDraft(
  client: ClientBase,
  organisation: string,
  { id, type, subject, basedOn, content, by, at }: NewDraft,
): Promise<boolean> {
  await client.query(
    `INSERT INTO draft (organisation, id, type, subject, based_on, content, revision, made_by, made_at, by, at) VALUES ($1, $2, $3, $4, $5, $6, 1, $7, $8, $7, $8)
     ON CONFLICT (organisation, id) DO NOTHING`,
    [organisation, id, type, subject, basedOn, JSON.stringify(content), by, at],
  );
  const { rowCount } = await client.query('SELECT FROM draft WHERE organisation = $1 AND id = $2 AND type = $3', [organisation, id, type]);
  return rowCount === 1;
}

/** The draft as it stands, held until the transaction ends, so that two who save at once are told one after the other. */
export async function holdDraft(client: ClientBase, organisation: string, type: DraftName, id: string): Promise<DraftRow | undefined> {
  const { rows } = await client.query<DraftRow>(`SELECT ${columns} AND d.id = $3 FOR UPDATE OF d`, [organisation, type, id]);
  return rows[0];
}

/** What the draft was at an earlier revision. */
export async function earlierDraft(
  client: ClientBase,
  organisation: string,
  id: string,
  revision: number,
): Promise<EarlierRow | undefined> {
  const { rows } = await client.query<EarlierRow>(
    'SELECT content, by, at FROM draft_earlier WHERE organisation = $1 AND draft = $2 AND revision = $3',
    [organisation, id, revision],
  );
  return rows[0];
}

/** Saves over a draft that is held; what it was is kept as an earlier revision. */
export async function saveDraft(client: ClientBase, organisation: string, id: string, { content, archived, by, at }: Saved): Promise<void> {
  await client.query(
    `INSERT INTO draft_earlier (organisation, draft, revision, content, by, at, archived)
     SELECT organisation, id, revision, content, by, at, archived FROM draft WHERE organisation = $1 AND id = $2`,
    [organisation, id],
  );
  await client.query(
    'UPDATE draft SET content = $3, archived = $4, by = $5, at = $6, revision = revision + 1 WHERE organisation = $1 AND id = $2',
    [organisation, id, JSON.stringify(content), archived, by, at],
  );
}
