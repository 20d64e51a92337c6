import type { Allergen } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { ticketOf } from './ticket.js';

type Version = Row<'formulaVersion'>;
type Specification = Row<'specification'>;

const example = {
  doughCelsius: null,
  frictionCelsius: null,
  minutesSlow: null,
  minutesFast: null,
  lifeHours: null,
  rework: null,
  steps: [],
};
const time = (minute: number): string => `2026-10-30T09:${String(minute).padStart(2, '0')}:00.000Z`;
const line = (material: string, madeBy: string | null = null) => ({ material, name: material, mg: 1, flour: false, madeBy });
const version = (
  formula: string,
  since: string,
  lines: Version['content']['lines'],
  products: Version['content']['products'] = [],
): Version => ({
  ...{ id: `${formula} ${since}`, formula, number: 1, name: formula, type: 'dough', loosened: [], note: null, since },
  content: { ...example, makes: formula, lines, products },
});
const said = (material: string, contains: Allergen[], since = time(0), type: Specification['type'] = 'ingredient'): Specification => ({
  ...{ id: `${material} ${since}`, material, name: material, type, countedIn: 'mass', densityMgPerMl: null, storage: 'ambient' },
  ...{ lifeDays: null, lifeOpenedHours: null, contains, mayContain: [], checked: { on: '2026-10-01', by: 'lead', against: 'label' } },
  ...{ flour: false, animalOrigin: false, supplier: null, since },
});

const roll = {
  ...{
    product: 'roll',
    name: 'roll',
    scalingMg: 1,
    pieces: null,
    bakedMg: 1,
    lossPpm: 0,
    lifeDays: 2,
    dateType: 'use-by' as const,
    ovens: [],
  },
  additions: [{ material: 'wash', name: 'wash', mgPerPiece: null, after: 'before-oven' as const }],
};
const formulas = [version('dough', time(1), [line('flour')], [roll]), version('wash', time(2), [line('egg')])];
const specifications = [said('flour', ['wheat']), said('egg', ['eggs']), said('wash', [], time(0), 'intermediate')];
const ticket = (more: readonly Specification[] = []) =>
  ticketOf({ specifications: [...specifications, ...more], formulas, now: time(30) }, 'dough', 'roll')?.contains;

describe('what a ticket says', () => {
  it('has what a wash brings, also where the formula of the wash was approved after that of the dough', () => {
    expect(ticket()).toEqual(['wheat', 'eggs']);
  });

  it('has nothing that a specification says only since: the ticket was written before', () => {
    expect(ticket([said('flour', ['wheat', 'soybeans'], time(20))])).toEqual(['wheat', 'eggs']);
  });
});
