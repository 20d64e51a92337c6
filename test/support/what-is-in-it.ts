import { counterView, formulaView, materialList } from '@bakehouse/contracts';
import { lotAllergens, usedOf } from '@bakehouse/graph';
import { allergen, type Allergen } from '@bakehouse/kernel';
import { allergenSources, madeHere, type FormulaContent } from '@bakehouse/records';
import { usedLots } from '@bakehouse/views';
import { expect } from '@jest/globals';
import { houseBooks } from '../../apps/api/src/modules/counter/counter.query.js';
import { rowsOfUse } from '../../apps/api/src/modules/counter/rows-of-use.query.js';
import { Tenancy } from '../../apps/api/src/platform/database/index.js';
import type { Bakehouse } from './bakehouse.js';
import { catalogue, type FormulaKey, type Material } from './bakehouse-data.js';
import type { Contents, ContentsExpected } from './contents-expected.js';
import type { UsedByRecord } from './used-by-record.js';

export interface Recipe {
  readonly key: FormulaKey;
  readonly content: FormulaContent;
}
const inList = (of: Iterable<Allergen>): Allergen[] => {
  const has = new Set(of);
  return allergen.options.filter((a) => has.has(a));
};

/** What the house says is in things, each place of it held against what the test works out itself. */
export class WhatIsInIt {
  /** Every answer that some lot was given. */
  readonly answers = new Set<string>();

  constructor(
    private readonly b: Bakehouse,
    private readonly now: string,
    private readonly recipes: readonly Recipe[],
    private readonly approved: string,
  ) {}

  /** Of each lot by itself, by the mechanism that every screen reads it by. */
  async isTheLots(used: UsedByRecord, expected: ContentsExpected): Promise<void> {
    const { organisation } = this.b.house;
    const ids = [...used.things.keys()];
    const found = await this.b.t.app.get(Tenancy, { strict: false }).inOrganisation(organisation, async (client) => {
      const rows = { ...(await rowsOfUse(client, organisation, ids)), ...(await houseBooks(client, organisation)), now: this.now };
      const { lots, flows } = usedLots(rows, allergenSources(rows, this.now));
      const all = usedOf(lots, flows, rows.touched);
      return ids.map((id) => [id, lotAllergens(all, [id])] as const);
    });
    for (const [id, { contains, mayContain, fromBowl, checkedSince }] of found) {
      for (const a of allergen.options) {
        const may = mayContain.has(a) || fromBowl.has(a);
        this.answers.add(contains.has(a) ? 'contains' : may ? 'may-contain' : checkedSince === null ? 'unknown' : 'not');
      }
      const said: Contents = { contains: inList(contains), mayContain: inList(mayContain), fromBowl: inList(fromBowl), checkedSince };
      expect([id, used.things.get(id)?.type, said]).toEqual([id, used.things.get(id)?.type, expected.of([id])]);
    }
  }

  /** At the counter, of each product with all its batches of the day: the answers, and what its ticket does not say. */
  async isTheCounters(used: UsedByRecord, expected: ContentsExpected): Promise<void> {
    const batches = [...used.things].filter(([id, t]) => t.type === 'made' && used.isBatch(id));
    const view = counterView.parse((await this.b.lead.caller.get(`/counter/${this.b.site}`).expect(200)).body);
    expect(view.products.map((p) => p.product).sort()).toEqual([...new Set(batches.map(([, t]) => t.material))].sort());
    for (const p of view.products) {
      const its = batches.flatMap(([id, t]) => (t.material === p.product ? [id] : [])).sort();
      const in_ = expected.of(its);
      const written = its.map((id) => this.writtenOf(id, p.product, used, expected));
      const possible = inList([...in_.mayContain, ...in_.fromBowl, ...written.flatMap((w) => [...w.contains, ...w.mayContain])]);
      const checkedSince = written.some((w) => w.checkedSince === null) ? null : in_.checkedSince;
      const word = (a: Allergen): string =>
        in_.contains.includes(a) ? 'contains' : possible.includes(a) ? 'may-contain' : checkedSince === null ? 'unknown' : 'not';
      const answers = Object.fromEntries(allergen.options.map((a) => [a, word(a)]));
      for (const answer of Object.values(answers)) this.answers.add(answer);
      const { product, fromBowl } = p;
      expect({ product, answers: p.answers, fromBowl, checkedSince: p.checkedSince }).toEqual({
        product,
        answers,
        fromBowl: in_.fromBowl,
        checkedSince,
      });
      const [of, other] = [...new Set(its.map((id) => this.recipeOf(id, used)))];
      if (of && other === undefined && names(of, product)) {
        const ticket = expected.ofMaterials(linesOf(of), this.approved);
        expect([product, p.notOnTicket]).toEqual([product, beyond(in_, ticket)]);
      }
    }
  }

  private recipeOf(id: string, used: UsedByRecord): Recipe | undefined {
    return this.recipes.find((r) => this.b.formula(r.key) === used.versionOf(id));
  }

  /** What the recipe of one batch says; of a product that it does not name, what is on or under that nobody knows. */
  private writtenOf(id: string, product: string, used: UsedByRecord, expected: ContentsExpected): Omit<Contents, 'fromBowl'> {
    const recipe = this.recipeOf(id, used);
    if (!recipe) return { contains: [], mayContain: [], checkedSince: null };
    const said = expected.ofMaterials(linesOf(recipe));
    return names(recipe, product) ? said : { ...said, checkedSince: null };
  }

  /** In the catalogue and on the formulas' pages, by formula; what is bought by its specifications. */
  async isTheOffices(expected: ContentsExpected): Promise<void> {
    const materials = materialList.parse((await this.b.lead.caller.get('/catalogue/materials').expect(200)).body);
    expect(materials.map((m) => m.material).sort()).toEqual(expect.arrayContaining(Object.values(this.b.ids.materials).sort()));
    for (const { material, type, by, allergens } of materials) {
      expect([material, by]).toEqual([material, madeHere(type) ? 'formula' : 'specification']);
      expect([material, shown(allergens)]).toEqual([material, expected.ofMaterials([material])]);
    }
    for (const { key, content } of this.recipes) {
      const view = formulaView.parse((await this.b.lead.caller.get(`/formulas/${this.b.ids.formulas[key]}`).expect(200)).body);
      const whole = expected.ofMaterials(content.lines.map((l) => l.material));
      expect([key, shown(view.allergens)]).toEqual([key, whole]);
      expect(view.products.map((p) => [p.product, shown(p.allergens)])).toEqual(content.products.map((p) => [p.product, whole]));
    }
  }
}

const linesOf = ({ content }: Recipe): string[] => content.lines.map((l) => l.material);
const names = ({ content }: Recipe, product: string): boolean => content.products.some((one) => one.product === product);

const shown = ({ contains, mayContain, checkedSince, notKnown }: Omit<Contents, 'fromBowl'> & { readonly notKnown: readonly string[] }) => {
  expect(notKnown.length > 0).toBe(checkedSince === null);
  return { contains, mayContain, checkedSince };
};

/** Used, and not said on a ticket that was written from the formula as it was approved. */
const beyond = (in_: Contents, ticket: Omit<Contents, 'fromBowl'>): Allergen[] =>
  allergen.options.filter(
    (a) => !ticket.contains.includes(a) && (in_.contains.includes(a) || (in_.mayContain.includes(a) && !ticket.mayContain.includes(a))),
  );

/** What the catalogue of the fixture says from its beginning. */
export const saidFromTheBeginning = (b: Bakehouse, since: string) =>
  Object.entries(catalogue).map(([key, { contains, mayContain, checked }]) => ({
    material: b.material(key as Material), // its keys
    since,
    contains,
    mayContain,
    checkedOn: checked?.on ?? null,
  }));
