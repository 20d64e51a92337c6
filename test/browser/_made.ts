import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import type { Hand } from '../support/hand.js';
import type { NightTable } from './_night.js';

/** A dough of 20 kg of flour that nobody named a sack for, begun on a bake day; gives the make. */
export async function doughBegun(n: NightTable, lead: Hand, bakeDay: string): Promise<string> {
  const { rows } = (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=${bakeDay}`).expect(200)).body;
  const begun = { formulaVersion: String(rows.formulaVersion[0].id), station: n.night.mixer, plan: null, bakeDay, plannedMg: null };
  const make = (await lead.record('make-begun', begun)).id;
  const line = { material: n.night.materials.flour, lot: null, quantity: { figure: '20', unit: 'kg' as const }, how: 'weighed' as const };
  await lead.record('weighed-in', { make, lines: [{ ...line, type: 'ingredient' }] });
  return make;
}

/** Pieces of a product made up of a dough; gives the run. */
export async function madeUp(n: NightTable, lead: Hand, make: string, product: string, pieces: number, grams: string): Promise<string> {
  const run = uuidv7(n.clock.now());
  const runs = [{ run, product, heads: null, pieces, scaling: { figure: grams, unit: 'g' as const } }];
  await lead.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
  return run;
}

/** The oven of a site by its name. */
export async function placeNamed(n: NightTable, name: string): Promise<string> {
  const { rows } = (await n.night.lead.get(`/sites/${n.night.house.site}/night`).expect(200)).body;
  return String(rows.place.find((p: { name: string }) => p.name === name).id);
}
