import type { PayloadFor } from '@bakehouse/records';
import type { Carried } from './carried.js';
import { probeCheck } from './control.js';
import type { Batch, Kitchen } from './kitchen.js';
import { send } from './out.js';
import { deviationOf } from './story.js';

type Reported = PayloadFor<'deviation-reported'>;

/** Reviewed, signed and closed. */
export function closed(k: Kitchen, deviation: string, time: string, review: string, by: 'owner' | 'lead' = 'owner'): string {
  return k.story.tell('deviation-closed', { deviation, staysOnHold: [] }, k.options(time, { by, words: { review } }));
}

function answered(
  k: Kitchen,
  deviation: string,
  type: PayloadFor<'corrective-action-taken'>['type'],
  action: string,
  time: string,
): string {
  return k.story.tell('corrective-action-taken', { deviation, type }, k.options(time, { words: { action } }));
}

export function deviationReported(
  k: Kitchen,
  subjectType: Reported['subjectType'],
  subject: string,
  cls: Reported['class'],
  what: string,
  time: string,
  by = k.by,
): string {
  return k.story.tell('deviation-reported', { subjectType, subject, class: cls, holds: false }, k.options(time, { by, words: { what } }));
}

/** The retarder's door does not close: 9.1 °C in the evening, dough inside. */
export function retarderExcursion(k: Kitchen): void {
  const warm = k.read('retarder-air', 'place', k.placeId('retarder'), { celsius: '9.1' }, '20:06');
  answered(k, deviationOf(warm), 'adjusted', 'a tray stood against the door; moved', '20:08');
  const cold = k.read('retarder-air', 'place', k.placeId('retarder'), { celsius: '4.6' }, '20:50');
  closed(k, deviationOf(warm), '21:00', 'the dough stayed below 7 °C by its own probe', 'lead');
  k.story.plant('retarder-excursion', 'Retarder at 9.1 °C with loaves in it, 4.6 °C three quarters of an hour later', k.day.date, [
    warm,
    cold,
  ]);
}

/** The fridge is warm in the morning, and its logger says nothing of the night. */
export function warmFridge(k: Kitchen): void {
  const fridge = k.placeId('dairyFridge');
  const gap = k.story.tell(
    'reading-not-taken',
    { subjectType: 'place', subject: fridge, point: k.story.point('fridge-air'), answer: 'not-known' },
    k.options('05:30', { words: { note: 'the logger stopped at 22:40' } }),
  );
  const warm = k.read('fridge-air', 'place', fridge, { celsius: '9.2' }, '05:33', { instrument: 'air' });
  answered(k, deviationOf(warm), 'set-aside', 'opened milk and yolk thrown away, the rest into the meat fridge', '05:40');
  k.read('fridge-air', 'place', fridge, { celsius: '3.6' }, '07:10', { instrument: 'air' });
  closed(k, deviationOf(warm), '15:00', 'the plug had been knocked; a cage is on it now');
  k.story.plant('warm-fridge', 'Dairy fridge at 9.2 °C in the morning, and nobody knows the night: the logger has a gap', k.day.date, [
    gap,
    warm,
  ]);
}

/** A tray of rolls stood in the hot case, off, for two hours and five minutes. */
export function trayTooLong(k: Kitchen, rolls: Batch): void {
  const late = k.read('display-time', 'batch', rolls.id, { minutes: 125 }, '08:55', { instrument: null });
  answered(k, deviationOf(late), 'set-aside', 'what was left of the tray thrown away', '08:56');
  const waste = send(k, rolls, 'waste', null, 5, '08:57');
  closed(k, deviationOf(late), '15:05', 'four were sold in the last five minutes; nobody was told, and the house decided so');
  k.story.plant('tray-too-long', 'A tray of rolls on display for 2 h 05, five thrown away', k.day.date, [late, waste]);
}

/** Egg wash of two days ago, topped up and used. */
export function washToppedUp(k: Kitchen, carried: Carried, rolls: Batch): void {
  const { wash } = carried;
  if (wash === null) return;
  const lines = k.stock.take('egg', 'coldTable', 150, k.day.ms('03:45'), k.by).map((l) => ({ ...l, type: 'late-addition' as const }));
  const topped = k.weighed(wash, lines, '03:45');
  const used = k.addOn(rolls.run, 'wash', wash, 120, '03:51');
  const old = k.read('wash-age', 'make', wash, { minutes: 2_888 }, '06:32', { instrument: null });
  answered(k, deviationOf(old), 'set-aside', 'the bowl emptied and washed', '06:34');
  closed(k, deviationOf(old), '15:00', 'egg wash is made, lives its hours and is thrown away', 'lead');
  k.story.plant('wash-topped-up', 'Yesterday’s egg wash topped up with fresh egg and used', k.day.date, [topped, used, old]);
}

/** Probe P2 reads 2.6 °C in ice: out of use, and nobody knows since when it is off. What was read with it since Monday's check is decided on at once. */
export function probeOff(k: Kitchen): void {
  const { story } = k;
  const read = story.lotsReadSinceCheckOf(story.instrument.p2);
  const off = probeCheck(k, 'p2', '2.6', '01:06');
  const note = 'no reading of P2 since its last good check was within 2.6 °C of its limit';
  for (const lot of read)
    story.tell(
      'disposition-decided',
      { deviation: deviationOf(off), lot, disposition: 'accepted-for-use', covers: 'what-came-of-it', concerns: [], quantity: null },
      k.options('01:20', { by: 'lead', words: { note } }),
    );
  const out = story.tell(
    'instrument-out-of-use',
    { instrument: story.instrument.p2 },
    k.options('08:00', { by: 'owner', words: { note: 'P3 instead from now on' } }),
  );
  closed(k, deviationOf(off), '15:10', 'what was read with P2 since its last good check was decided on, lot by lot');
  story.secondProbe = 'p3';
  story.plant('probe-off', 'Probe P2 fails in ice: off since an unknown day', k.day.date, [off, out]);
}

/** Two complaints from doughs that share the mixer and no flour. */
export function twoComplaints(k: Kitchen, carried: Carried): void {
  const late = carried.whites.at(-1);
  const early = carried.whites.findLast((w) => w.flour !== late?.flour);
  if (!late || !early) return;
  const what = 'a customer brought it back: a blue thread in the crumb';
  const ids = [early, late].map(({ batch }, i) =>
    deviationReported(k, 'batch', batch.id, 'oprp', what, i === 0 ? '10:10' : '11:40', 'lead'),
  );
  closed(k, ids[0] ?? '', '16:50', 'a strand of the spiral mixer’s cover; cover replaced', 'owner');
  closed(k, ids[1] ?? '', '16:51', 'the same cover', 'owner');
  k.story.plant('two-complaints', 'Two complaints of a blue thread: two doughs, one mixer, no flour in common', k.day.date, [
    ...ids,
    early.batch.id,
    late.batch.id,
  ]);
}

/** The same PIN at the table of Mill Lane and, two minutes later, at Harbour Steps. */
export function pinInTwoPlaces(k: Kitchen): void {
  const here = k.read('retarder-air', 'place', k.placeId('retarder'), { celsius: '4.0' }, '07:50');
  const there = k.read('fridge-air', 'place', k.placeId('shopFridge'), { celsius: '3.4' }, '07:52', {
    where: 'shop',
    instrument: 'shopProbe',
  });
  k.story.plant('one-pin-two-places', 'One PIN at two sites within two minutes: it is shared', k.day.date, [here, there]);
}

/** The owner bakes, breaks a jar, cleans up, and closes it herself. */
export function ownReview(k: Kitchen): void {
  const broken = deviationReported(
    k,
    'place',
    k.placeId('bench'),
    'ccp',
    'a jar of vanilla broke at the bench; nothing open stood near',
    '08:20',
    'owner',
  );
  k.story.tell(
    'corrective-action-taken',
    { deviation: broken, type: 'other' },
    k.options('08:30', { by: 'owner', words: { action: 'swept, vacuumed, bench washed, everything within two metres thrown away' } }),
  );
  const review = closed(k, broken, '08:45', 'all pieces of the jar found and put together');
  k.story.plant('own-review', 'The owner found it, answered it and closed it: the record says that it was her own review', k.day.date, [
    broken,
    review,
  ]);
}

/** Nobody took the core of the baps, and they were sold: found in the afternoon. */
export function soldWithoutCore(k: Kitchen, baps: Batch): void {
  const { story } = k;
  const why = { why: 'sold already; oven chart, colour and the second load’s neighbours show a full bake; nobody rang' };
  const load = baps.loads[0] ?? '';
  const missed = story.tell(
    'reading-not-taken',
    { subjectType: 'load', subject: load, point: story.point('bap-core'), answer: 'not-done' },
    k.options('14:30', { by: 'lead' }),
  );
  const released = story.tell('released-by-exception', { batch: baps.id }, k.options('14:40', { by: 'lead', words: why }));
  const departures = story.departuresOf(baps.id, k.day.ms('14:00'));
  const displays = story.displaysOf(baps.id, k.day.ms('14:00'));
  const opened = [deviationOf(missed), ...departures.map((d) => d.deviation), ...displays.map(deviationOf)];
  for (const [i, deviation] of opened.entries()) {
    story.tell(
      'disposition-decided',
      { deviation, lot: null, disposition: 'accepted-for-use', covers: 'what-came-of-it', concerns: [], quantity: null },
      k.options(`14:${45 + i}`, { by: 'lead', words: { note: 'eaten, or still to be sold' } }),
    );
  }
  for (const deviation of opened) closed(k, deviation, '15:20', 'the core comes before the label from now on');
  story.plant('sold-without-core', 'Baps left without a core temperature; found in the afternoon and signed for', k.day.date, [
    missed,
    released,
    baps.id,
    ...departures.map((d) => d.departure),
  ]);
}
