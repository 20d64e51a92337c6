import type { Snapshot } from '@bakehouse/records';
import { paths } from '../../apps/web/src/shared/night/paths.js';
import { office } from '../../apps/web/src/shared/office-paths.js';
import type { FullHouse } from '../support/full-house.js';

/** One page of each address that the code names: the compiler says which one is missing here. */
type EachOf<P> = { readonly [K in keyof P]: string };

export interface Found {
  readonly rows: Snapshot;
  readonly house: FullHouse;
}

const first = (rows: readonly { readonly id: string }[], what: string): string => {
  const [one] = rows;
  if (one === undefined) throw new Error(`the house has no ${what}`);
  return one.id;
};

/** The table's pages. Without data: what is on its way back (nothing was lent), the day's photos. */
export function tablePages({ rows, house: { b } }: Found): EachOf<typeof paths> & Readonly<Record<string, string>> {
  const [make, run, load] = [first(rows.make, 'make'), first(rows.run, 'run'), first(rows.load, 'load')];
  const batch = first(rows.batch, 'batch');
  return {
    today: paths.today,
    start: paths.start,
    startOf: paths.startOf(b.ids.formulas.white),
    make: paths.make(make),
    weigh: paths.weigh(make),
    mixed: paths.mixed(make),
    makeUp: paths.makeUp(make),
    run: paths.run(run),
    count: paths.count(run),
    loadNew: paths.loadNew,
    load: paths.load(load),
    batch: paths.batch(batch),
    read: paths.read('load', load, b.point('bloomer-core')),
    open: paths.open,
    goods: paths.goods,
    goodsNew: `${paths.goods}/new`,
    goodsUnattended: `${paths.goods}/unattended`,
    report: paths.report('make', make),
    deviation: paths.deviation(first(rows.deviation, 'deviation')),
    recent: paths.recent,
    correct: paths.correct(load),
    sheet: paths.sheet,
    out: paths.out,
    send: paths.send('dispatch'),
    returned: paths.returned,
    counter: paths.counter,
    countLot: paths.countLot(batch),
    stock: paths.stock,
    move: paths.move,
    vessel: paths.vessel,
    cleanDown: paths.cleanDown,
    probeCheck: paths.probeCheck,
    holdPlace: paths.holdPlace,
    holdThisPlace: paths.holdThisPlace(first(rows.place, 'place')),
    officer: '/table/officer',
  };
}

/** The office's pages. */
export function officePages(
  { rows, house: { b, drafts } }: Found,
  recall: string,
  person: string,
): EachOf<Omit<typeof office, 'catalogue'>> & Readonly<Record<string, string>> {
  const lot = first(rows.batch, 'batch');
  return {
    home: office.home,
    find: office.find('B'),
    lot: office.lot(lot),
    lotFrom: office.lotFrom(lot),
    recalls: office.recalls,
    recall: office.recall(recall),
    recallNew: office.recallNew(lot, null),
    goods: office.goods,
    delivery: office.delivery('2026-11-25', first(rows.delivery, 'delivery')),
    goodsNew: `${office.goods}/new`,
    goodsUnattended: `${office.goods}/unattended`,
    stock: office.stock,
    formulas: office.formulas,
    formula: office.formula(b.formula('white')),
    drafts: office.drafts,
    draft: office.draft(drafts.formula),
    plan: office.plan,
    planPoint: office.planPoint(b.point('bloomer-core')),
    planDrafts: office.planDrafts,
    planDraft: office.planDraft(drafts.plan),
    materials: office.materials,
    materialNew: office.materialNew,
    material: office.material(b.material('flour')),
    parties: office.parties,
    party: office.party(b.party('cafeA')),
    places: office.places,
    place: office.place(b.place('deckOven')),
    readings: office.readings,
    course: office.course({ by: 'place', of: b.place('deckOven'), measured: 'core', parameter: 'core temperature', point: 'bloomer-core' }),
    site: office.site,
    people: office.people,
    person: office.person(person),
    bake: office.bake,
    officer: office.officer,
    setup: office.setup,
    starters: office.starters,
    materialsSheet: office.materialsSheet,
    partiesSheet: office.partiesSheet,
  };
}
