import { derivedId } from '@bakehouse/kernel';
import { kinds, type KindName, type PayloadFor } from '@bakehouse/records';
import type { Bakehouse } from './bakehouse.js';
import { formulasOf, pointKeys, pointsOf } from './bakehouse-data.js';
import type { EntryOf, RawEntry } from './entries.js';
import { Hand } from './hand.js';
import { looseningsOf } from './loosened.js';
import { at, celsius, g, pieces, type Premises, type Recorder } from './premises.js';
import { placeOnHold, soundBatch } from './sound-batch.js';

type About = 'payload' | 'words' | 'corrects';
/** A payload of each kind that this bakehouse records as it stands, words where the kind cannot do without: the compiler names a kind that is missing. */
type Samples = { readonly [K in KindName]: Pick<EntryOf<K>, About> };
export interface Sample extends Pick<RawEntry, About> {
  readonly kind: KindName;
}

const day = '2026-11-25';
const atBoiling = { way: 'boiling', shown: celsius('99.5'), at: { pressurePascal: 101_325, altitudeMetres: 100 }, tolerance: '1' } as const;

/** Who records what a sample needs to be about something. */
export interface Hands {
  /** The administrator, at the organisation's book and at the site's. */
  readonly admin: Recorder;
  readonly atSite: Recorder;
  readonly owner: Recorder;
  joined(name: string): Promise<string>;
}

/** The same of a bakehouse behind a service. */
export function everyKind(b: Bakehouse): Promise<() => Sample[]> {
  const { house } = b;
  return everyKindAt(b, {
    admin: new Hand(house, house.administrator, null),
    atSite: new Hand(house, house.administrator),
    owner: new Hand(house, b.owner.caller, null),
    joined: async (name) => (await house.join(name, ['viewer'])).person,
  });
}

/** Founds what every kind needs to be about something, and gives one good payload of each. Ids that a device chooses are made anew at each call. */
export async function everyKindAt(b: Premises, { admin, atSite, owner, joined }: Hands): Promise<() => Sample[]> {
  const { baker } = b;
  const lot = await b.delivered('flour', at('01:00'));
  const unnamed = await b.delivered('egg', at('01:05'), { code: null, codeState: 'not-known-yet' });
  const tub = (await atSite.record('place-in-use', { name: 'Tub', type: 'vessel', within: null })).id;
  const instrument = (await atSite.record('instrument-in-use', { name: 'P1', type: 'probe', unit: 'degC', halfWidth: '0.5' })).id;
  const person = await joined('Wil Leve');
  const given = (await admin.record('role-given', { person, role: 'baker', site: null, until: null })).id;
  const access = (
    await admin.record('access-given', { person, sites: [b.site], from: '2026-11-01', until: null, expires: '2026-11-26T00:00:00Z' })
  ).id;
  const make = await b.begun('white', at('02:30'));
  const run = b.newId();
  const line = { run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') };
  const division = {
    make,
    quantity: null,
    oldDough: g('100'),
    scrap: g('10'),
    runs: [line],
  };
  const plain = b.newId();
  await baker.record('divided', { ...division, runs: [line, { ...line, run: plain }] }, { at: at('02:40') });
  const loadIn = {
    oven: b.place('deckOven'),
    deck: b.place('rackOven'),
    plan: b.plan,
    bakeDay: day,
    setting: celsius('230'),
    minutes: 28,
    lines: [{ run, pieces: 12 }],
  };
  const load = (await baker.record('load-in', loadIn, { at: at('02:50') })).id;
  const low = (await baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '80'), { at: at('03:20') })).id;
  const deviation = derivedId(low, 'deviation');
  const counted = { run, loads: [load], pieces: 10, rejects: 2, code: 'B-1', bakedOn: day, bestBefore: '2026-11-28', useBy: null };
  const batch = (await baker.record('batch-counted-out', counted, { at: at('03:25') })).id;
  await soundBatch(b, plain);
  const hold = (await baker.record('hold-placed', { lot, deviation: null }, { at: at('03:30') })).id;
  const sentOut: PayloadFor<'sent-out'> = {
    channel: 'dispatch',
    customer: b.party('cafeA'),
    unattended: false,
    until: null,
    lines: [{ lots: [batch], quantity: pieces(2), how: 'counted' }],
  };
  const trip = (await baker.record('sent-out', sentOut, { at: at('03:31') })).id;
  const opened: PayloadFor<'recall-opened'> = {
    suspect: [lot],
    hazard: 'microbiological',
    hazardName: 'Salmonella',
    practice: true,
    frozenAt: [{ book: b.site, size: 1 }],
    scopeHash: 'ab'.repeat(32),
    scope: [{ lot, certain: true, minPpt: 1, maxPpt: 1_000_000_000_000, begins: true }],
  };
  const recall = (await owner.record('recall-opened', opened, { at: at('03:32') })).id;
  const spare = (
    await baker.record(
      'deviation-reported',
      { subjectType: 'site', subject: b.site, class: 'process-check', holds: false },
      { at: at('03:33'), words: { what: 'a tap drips' } },
    )
  ).id;
  // What came to be needed later stands last: the ids of everything before it stay what golden files hold.
  const real = (await owner.record('recall-opened', { ...opened, practice: false }, { at: at('03:32') })).id;
  const weighed = await b.begun('white', at('02:30'));
  const nobodyKnew = await baker.record('weighed-in', { make: weighed, lines: [b.into('flour', '5600')] }, { at: at('02:31') });
  const own = derivedId(weighed, 'its run');
  await baker.record(
    'divided',
    { make: weighed, quantity: null, oldDough: null, scrap: null, runs: [{ ...line, run: own }] },
    { at: at('02:40') },
  );
  const good = await soundBatch(b, own);
  const flour = b.material('flour');
  const [refusedLot, withdrawnLot] = [derivedId(lot, 'another, refused'), derivedId(lot, 'another, withdrawn')];
  const came = (of: string) =>
    baker.record(
      'delivery-received',
      { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [b.line('flour', of)] },
      { at: at('01:00') },
    );
  await came(refusedLot);
  await baker.record('receipt-decided', { lot: refusedLot, decision: 'refused' }, { at: at('01:10') });
  const twice = await came(withdrawnLot);
  await baker.record('lot-counted', { lot: withdrawnLot, place: null, quantity: g('1') }, { at: at('01:10') });
  await baker.record('entry-withdrawn', {}, { at: at('01:15'), corrects: twice.id, words: { reason: 'typed twice' } });
  const plainLot = derivedId(lot, 'another, plain');
  await came(plainLot);
  const named = { lot: derivedId(nobodyKnew.id, 'placeholder 0'), code: null, delivery: null };
  await baker.record('lot-identified', { ...named, same: plainLot }, { at: at('04:00') });
  const placeHold = await placeOnHold(b, b.place('freezer'), withdrawnLot);

  return () => {
    const [[, , , content]] = formulasOf(b.ids);
    const samples: Samples = {
      'entry-withdrawn': { payload: {}, corrects: spare, words: { reason: 'a slip' } },
      'person-joined': { payload: {}, words: { name: 'Jo' } },
      'person-left': { payload: { person } },
      'role-given': { payload: { person, role: 'baker', site: b.site, until: '2026-12-01T00:00:00Z' } },
      'role-taken-away': { payload: { given } },
      'site-described': { payload: { registration: null, authority: { name: 'Food office', phone: '01632 960110', outOfHours: null } } },
      'place-in-use': { payload: { name: 'Shelf', type: 'store', within: b.place('fridge') } },
      'place-out-of-use': { payload: { place: b.place('freezer') } },
      'instrument-in-use': { payload: { name: 'P2', type: 'probe', unit: 'degC', halfWidth: '0.5' } },
      'instrument-out-of-use': { payload: { instrument } },
      'instrument-checked': { payload: { instrument, ...atBoiling } },
      'specification-accepted': {
        payload: {
          material: b.newId(),
          name: 'Rye',
          type: 'ingredient',
          countedIn: 'mass',
          densityMgPerMl: 600,
          storage: 'ambient',
          lifeDays: 180,
          lifeOpenedHours: 24,
          contains: ['rye'],
          mayContain: ['wheat'],
          checked: { against: 'label', on: '2026-11-20' },
          flour: true,
          animalOrigin: false,
          supplier: b.party('nuts'),
        },
      },
      'party-accepted': { payload: { party: b.newId(), type: 'customer', vulnerable: false, unattended: false }, words: { name: 'Shop' } },
      'party-stopped': { payload: { party: b.party('cafeC') } },
      'formula-approved': {
        payload: { formula: b.newId(), number: 1, name: 'Other dough', type: 'dough', content: { ...content, products: [] } },
      },
      'formula-retired': { payload: { formula: b.formulaId('treacle') } },
      'plan-approved': {
        payload: {
          series: b.newId(),
          number: 1,
          site: b.site,
          content: { name: 'P', scope: '', team: '', pastLife: { opened: 'warn', madeHere: 'warn' }, points: pointsOf(b.ids).slice(-1) },
          loosened: looseningsOf(pointKeys.slice(0, -1)),
        },
      },
      'delivery-received': {
        payload: {
          supplier: b.party('nuts'),
          noteNumber: 'N',
          photo: null,
          unattended: false,
          lines: [
            b.line('flour', b.newId(), {
              bestBefore: '2027-01-01',
              useBy: '2027-01-01',
              temperature: { ...celsius('4'), measured: 'air', point: b.point('chilled-in'), instrument },
            }),
          ],
        },
      },
      'receipt-decided': { payload: { lot, decision: 'accepted' } },
      'refused-goods-accepted': {
        payload: { lot: refusedLot, decision: 'accepted', covers: 'this-alone' },
        words: { why: 'the pack is whole' },
      },
      'withdrawn-lot-accepted': { payload: { lot: withdrawnLot, covers: 'this-alone' }, words: { why: 'the pack is whole' } },
      'lot-identified': { payload: { lot: unnamed, code: 'E1', same: lot, delivery: null } },
      'lot-opened': { payload: { station: b.place('mixer'), material: flour, lot, beside: false } },
      'lot-emptied': { payload: { station: b.place('mixer'), lot, left: g('1') } },
      'lot-counted': { payload: { lot, place: b.place('fridge'), quantity: g('1') } },
      'lots-moved': { payload: { to: b.place('fridge'), lines: [{ lot, from: b.place('mixer'), quantity: g('1'), how: 'weighed' }] } },
      'vessel-topped-up': {
        payload: {
          vessel: tub,
          material: flour,
          kept: g('1'),
          keptHow: 'weighed',
          added: [{ material: flour, lot, quantity: g('1'), how: 'weighed' }],
        },
      },
      'vessel-cleaned-out': { payload: { vessel: tub } },
      'make-begun': {
        payload: { formulaVersion: b.formula('white'), station: b.place('mixer'), plan: b.plan, bakeDay: day, plannedMg: 41_450_000 },
      },
      'weighed-in': { payload: { make, lines: [b.into('flour', '100', lot), { ...b.into('flour', '50', lot), orLots: [refusedLot] }] } },
      mixed: {
        payload: {
          make,
          minutesSlow: 4,
          minutesFast: 6,
          water: celsius('19'),
          flour: celsius('21'),
          room: celsius('24'),
          dough: celsius('26'),
        },
      },
      'one-off-changed': { payload: { make, material: flour, instead: b.material('crumb') } },
      'stage-passed': { payload: { subjects: [{ type: 'make', id: make }], place: b.place('prover'), step: 'rest', way: 'in' } },
      divided: { payload: { ...division, quantity: g('10000'), runs: division.runs.map((r) => ({ ...r, run: b.newId(), heads: 3 })) } },
      'added-on': {
        payload: { targetType: 'run', target: run, afterOven: true, lines: [{ material: flour, lot, quantity: g('100'), how: 'weighed' }] },
      },
      'make-ended': { payload: { make, quantity: g('41000'), how: 'weighed' } },
      'load-in': { payload: loadIn },
      'load-stepped': { payload: { load, step: 'back-in', minutes: 5 } },
      'batch-counted-out': { payload: counted },
      'released-by-rule': { payload: { batch: good } },
      'released-by-exception': { payload: { batch }, words: { why: 'tasted' } },
      'hold-placed': { payload: { lot, deviation } },
      'hold-lifted': { payload: { hold }, words: { why: 'looked at' } },
      'place-put-on-hold': { payload: { place: tub, from: '2026-11-25T00:00:00Z', until: null }, words: { because: 'glass' } },
      'place-hold-ended': { payload: { hold: placeHold }, words: { why: 'cleaned' } },
      'food-at-place-accepted': { payload: { hold: placeHold, lot: withdrawnLot, covers: 'this-alone' }, words: { why: 'sealed' } },
      'reading-taken': { payload: b.reading('bloomer-core', 'load', load, '94', { instrument, seconds: 30 }) },
      'reading-not-taken': { payload: { subjectType: 'load', subject: load, point: b.point('bloomer-core'), answer: 'not-done' } },
      'deviation-reported': { payload: { subjectType: 'make', subject: make, class: 'oprp', holds: false }, words: { what: 'dropped' } },
      'corrective-action-taken': { payload: { deviation, type: 'adjusted' } },
      'disposition-decided': {
        payload: { deviation, lot: batch, disposition: 'destroyed', covers: 'this-alone', concerns: [], quantity: pieces(1) },
      },
      'deviation-closed': { payload: { deviation: spare, staysOnHold: [] } },
      'cleaned-down': { payload: { place: b.place('bench'), type: 'wet', chemical: 'soap', dilution: '1:50', contactSeconds: 300 } },
      'sent-out': { payload: { ...sentOut, until: '2026-11-25T05:00:00Z' } },
      'goods-returned': {
        payload: {
          lot: batch,
          departure: derivedId(trip, `0 ${batch}`),
          customer: b.party('cafeA'),
          quantity: pieces(1),
          how: 'counted',
          disposition: 'waste',
        },
      },
      'put-on-counter': { payload: { lot: batch, way: 'on', pieces: 4 } },
      'recall-opened': { payload: opened },
      'recall-scope-extended': { payload: { recall, lots: [{ lot, certain: false }] } },
      'recall-disposition-decided': {
        payload: { recall: real, lot, decision: 'freed', covers: 'this-alone', quantity: null },
        words: { why: 'tested clear' },
      },
      'recall-contact-made': { payload: { recall, party: b.party('cafeA'), answer: 'told', piecesHeld: 2 } },
      'recall-notified': { payload: { recall, to: 'authority', how: 'telephone' } },
      'recall-closed': { payload: { recall, staysOnHold: [], notReached: [] } },
      'access-given': { payload: { person, sites: [b.site], from: '2026-11-01', until: '2026-11-20', expires: '2026-11-26T00:00:00Z' } },
      'access-ended': { payload: { access } },
      'pin-set': { payload: { person } },
      'bodies-withheld': { payload: { kind: 'reading-taken', before: '2020-01-01', bodies: 12 }, words: { reason: 'six years are over' } },
      'words-erased': {
        payload: { of: 'person', who: person, words: [{ field: 'name', entries: [person] }] },
        words: { reason: 'they asked' },
      },
    };
    return kinds.map(({ name }) => ({ kind: name, ...samples[name] }));
  };
}
