import pg from 'pg';
import * as z from 'zod';

/** One table that a statement read, and how: rows that one pass over it looked at, whether it kept them or not. */
export interface Scanned {
  readonly how: string;
  readonly table: string;
  readonly rows: number;
  /** It went along an index by the very ids that were asked about, all in one pass: what it looked at belongs to one of them. */
  readonly byIds: boolean;
  readonly statement: string;
}

const node = z.object({
  'Node Type': z.string(),
  'Relation Name': z.string().optional(),
  'Actual Rows': z.number().optional(),
  'Index Cond': z.string().optional(),
  'Recheck Cond': z.string().optional(),
  'Rows Removed by Filter': z.number().optional(),
  'Rows Removed by Index Recheck': z.number().optional(),
  get Plans() {
    return z.array(node).optional();
  },
});
/** `(lot = ANY ($2))`: ids, and nothing else that a column may be one of. */
const ids = /\((id|lot|make|same|source|target) = ANY \(/;
type Node = z.infer<typeof node>;
const explained = z.object({ 'Query Text': z.string(), Plan: node });

/**
 * A connection as the service has it (`planning` in tenancy.ts), for one organisation, on which every statement tells its plan as it was run: those inside functions too.
 * Only the owner of the test server may ask for that, so the connection is the owner's and then takes the service's role.
 */
export class Explained {
  readonly scans: Scanned[] = [];
  statements = 0;

  private constructor(readonly client: pg.Client) {
    client.on('notice', ({ message }) => this.heard(message ?? ''));
  }

  static async connect(ownerUrl: string, organisation: string, plans: 'force_generic_plan' | 'force_custom_plan'): Promise<Explained> {
    const client = new pg.Client({ connectionString: ownerUrl });
    await client.connect();
    await client.query(`LOAD 'auto_explain'; SET auto_explain.log_nested_statements = on; SET auto_explain.log_analyze = on;
      SET auto_explain.log_timing = off; SET auto_explain.log_format = json; SET client_min_messages = log; SET plan_cache_mode = ${plans};
      SET enable_seqscan = off; SET ROLE bakehouse_service; SELECT set_config('app.organisation', '${organisation}', false)`);
    const told = new Explained(client);
    await client.query('RESET ROLE; SET auto_explain.log_min_duration = 0; SET ROLE bakehouse_service');
    told.forget();
    return told;
  }

  forget(): void {
    this.scans.length = 0;
    this.statements = 0;
  }

  end(): Promise<void> {
    return this.client.end();
  }

  private heard(message: string): void {
    const json = message.indexOf('{');
    if (!message.includes('plan:') || json === -1) return;
    const { 'Query Text': statement, Plan: plan } = explained.parse(JSON.parse(message.slice(json)));
    this.statements += 1;
    this.walk(plan, statement);
  }

  private walk(at: Node, statement: string): void {
    const table = at['Relation Name'];
    const rows = (at['Actual Rows'] ?? 0) + (at['Rows Removed by Filter'] ?? 0) + (at['Rows Removed by Index Recheck'] ?? 0);
    if (table !== undefined)
      this.scans.push({ how: at['Node Type'], table, rows, byIds: ids.test(at['Index Cond'] ?? at['Recheck Cond'] ?? ''), statement });
    for (const below of at.Plans ?? []) this.walk(below, statement);
  }
}
