import { connected } from '../../../apps/api/src/platform/database/index.js';
import type { Bakehouse } from '../../support/bakehouse.js';

/** What something is called here, the most telling first: a batch is a lot too. */
const types: readonly (readonly [string, string])[] = [
  ['batch', 'SELECT id FROM batch WHERE organisation = $1'],
  ['run', 'SELECT id FROM run WHERE organisation = $1'],
  ['make', 'SELECT id FROM make WHERE organisation = $1'],
  ['load', 'SELECT id FROM load WHERE organisation = $1'],
  ['refused', "SELECT lot AS id FROM receipt_decision WHERE organisation = $1 AND decision = 'refused'"],
  ['placeholder', "SELECT id FROM lot WHERE organisation = $1 AND type = 'placeholder'"],
  ['withdrawn', "SELECT id FROM lot WHERE organisation = $1 AND type = 'withdrawn'"],
  ['lot', "SELECT id FROM lot WHERE organisation = $1 AND type IN ('received', 'vessel', 'old-dough')"],
  ['deviation', 'SELECT id FROM deviation WHERE organisation = $1'],
  ['hold', 'SELECT id FROM hold WHERE organisation = $1'],
  ['practice', 'SELECT id FROM recall_case WHERE organisation = $1 AND practice'],
  ['case', 'SELECT id FROM recall_case WHERE organisation = $1 AND NOT practice'],
  ['departure', 'SELECT id FROM departure WHERE organisation = $1'],
  ['instrument', 'SELECT id FROM instrument WHERE organisation = $1'],
  ['vessel', "SELECT id FROM place WHERE organisation = $1 AND type = 'vessel'"],
  ['oven', "SELECT id FROM place WHERE organisation = $1 AND type = 'oven'"],
  ['store', "SELECT id FROM place WHERE organisation = $1 AND type NOT IN ('vessel', 'oven')"],
  ['customer', "SELECT party AS id FROM party WHERE organisation = $1 AND type = 'customer'"],
  ['version', "SELECT id FROM formula_version WHERE organisation = $1 AND type = 'dough'"],
  ['person', 'SELECT id FROM person WHERE organisation = $1 AND id <> ALL($2)'],
  ['role', 'SELECT id FROM role_given WHERE organisation = $1 AND person <> ALL($2)'],
  ['access', 'SELECT id FROM access_given WHERE organisation = $1'],
];

/** What is in the house at a moment, by what it is called. */
export class There {
  private readonly typeOf = new Map<string, string>();

  private constructor(readonly of: ReadonlyMap<string, readonly string[]>) {
    for (const [type, ids] of of) for (const id of ids) if (!this.typeOf.has(id)) this.typeOf.set(id, type);
  }

  /** As the tables say. Nobody leaves who writes here. */
  static at(b: Bakehouse, writers: readonly string[]): Promise<There> {
    return connected(b.t.database.ownerUrl, async (client) => {
      const of = new Map<string, readonly string[]>();
      for (const [type, text] of types) {
        const values = text.includes('$2') ? [b.house.organisation, writers] : [b.house.organisation];
        const { rows } = await client.query<{ id: string }>(`${text} ORDER BY 1`, values);
        of.set(type, [...new Set(rows.map((r) => r.id))]);
      }
      return new There(of);
    });
  }

  type(id: string): string | undefined {
    return this.typeOf.get(id);
  }

  /** Another of the same type; of what is weighed, something that was made as well, and of what is only named, any food. */
  like(id: string, weighed: boolean, random: () => number): string {
    const type = this.typeOf.get(id);
    if (type === undefined) return id;
    const among = type !== 'lot' || random() < 0.6 ? [type] : weighed ? ['make'] : ['make', 'batch', 'run'];
    return picked(among.flatMap((one) => this.of.get(one) ?? []), random) ?? id; // prettier-ignore
  }
}

export const picked = <T>(list: readonly T[], random: () => number): T | undefined => list[Math.floor(random() * list.length)];
