import type { Agenda } from './agenda.js';
import { approvePlan } from './base.js';
import { sourdoughForTomorrow, type WhiteBaked } from './bread.js';
import type { Carried } from './carried.js';
import { cleanedDown, storesRead } from './control.js';
import { Kitchen, type Batch } from './kitchen.js';
import { closed, deviationReported } from './planted-control.js';
import type { Stock } from './stock.js';
import { deviationOf, g } from './story.js';

/** What is planted in a night's white dough. */
export function plantWhite(k: Kitchen, carried: Carried, white: WhiteBaked, agenda: Agenda): void {
  const {
    story,
    day: { ago, date },
  } = k;
  if (ago === 9 || ago === 10) carried.tooWarm.push(white.dough);
  if (ago === agenda.split) closed(k, deviationOf(white.dough), '15:30', 'nine minutes fast; the timer is set to six again', 'lead');
  if (ago === agenda.split)
    story.plant(
      'guessed-split',
      'The flour ran out in the white dough: 16,400 g of one lot is a guess, the next gave the rest; mixed fast for nine minutes, 28.5 °C',
      date,
      [white.make, white.weighed, white.dough],
    );
  if (ago === 0)
    story.plant('low-core', 'Bloomers at 87.9 °C, five minutes back in the oven, 94.4 °C', date, [
      white.entries['low'] ?? '',
      white.entries['back'] ?? '',
      white.entries['bloomers'] ?? '',
      deviationOf(white.entries['low'] ?? ''),
    ]);
  if (ago === 3) {
    story.plant('core-940', 'A core typed as 940 °C: recorded as not believable, asked again', date, [
      white.entries['typed'] ?? '',
      white.entries['tins'] ?? '',
    ]);
    story.plant('no-lot-at-all', 'Seeds out of a bag without a label: a placeholder stands for the lot', date, [
      white.entries['seeds'] ?? '',
      white.bloomers.run,
    ]);
  }
  if (ago === 7) oldLabels(k, white);
  if (ago === 8) typedTwice(k, white);
}

function oldLabels(k: Kitchen, { baps, make }: WhiteBaked): void {
  const { story } = k;
  const options = { by: 'lead' } as const;
  const wrong = story.tell(
    'deviation-reported',
    { subjectType: 'batch', subject: baps.id, class: 'ccp', holds: true },
    k.options('05:30', { ...options, words: { what: '48 packs carry the old label: the tin oil has soya in it since tonight' } }),
  );
  story.tell(
    'corrective-action-taken',
    { deviation: wrong, type: 'other' },
    k.options('05:38', { ...options, words: { action: '48 labels off, 48 new ones on; counted by two' } }),
  );
  story.tell(
    'disposition-decided',
    { deviation: wrong, lot: null, disposition: 'accepted-after-correction', covers: 'what-came-of-it', concerns: [], quantity: null },
    k.options('05:41', { ...options, words: { note: '48 in, 48 out' } }),
  );
  closed(k, wrong, '15:00', 'labels are printed from what is open at the table from now on');
  story.plant('old-labels', '48 packs labelled before the tin oil with soya was opened: relabelled, 48 in and 48 out', k.day.date, [
    wrong,
    baps.id,
  ]);
  story.plant('substitution', 'Another tin oil, sent instead of the usual, brings soya into bread whose formula has none', k.day.date, [
    make,
    baps.id,
  ]);
}

/** The answer got lost: the tablet sends again, and the baker, not seeing it, types it again and takes that back. */
function typedTwice(k: Kitchen, { make, weighed }: WhiteBaked): void {
  const { story } = k;
  const clean = story.tell(
    'cleaned-down',
    { place: k.placeId('table'), type: 'dry', chemical: null, dilution: null, contactSeconds: null },
    k.options('03:50', { again: true }),
  );
  const twice = k.weighed(make, [k.line('salt', k.stock.current('salt'), 450)], '02:00');
  const back = story.tell(
    'entry-withdrawn',
    {},
    k.options('02:20', { corrects: twice, words: { reason: 'typed twice: the first had gone through' } }),
  );
  story.plant('double-entry', 'Typed again after a lost reply and taken back; sent again by the tablet and recorded once', k.day.date, [
    weighed,
    twice,
    back,
    clean,
    make,
  ]);
}

/** Nine records typed when there was time again, on a tablet whose clock is fourteen minutes fast. */
export function catchUp(k: Kitchen): void {
  const options = { about: true, typedAt: k.day.ms('14:30'), clockErrorMs: 14 * 60_000 };
  const ids = [...storesRead(k, '11:45', [], options), ...cleanedDown(k, [], options)];
  k.story.plant(
    'catch-up',
    'Nine records caught up at half past two, “about” noon, on a tablet whose clock was 14 minutes fast',
    k.day.date,
    ids,
  );
}

/** A new plan comes into force while the table's tablet is off line: what it begins takes the plan that it knows. */
export function planChangedMeanwhile(k: Kitchen, carried: Carried): void {
  const before = k.story.plan;
  const made = sourdoughForTomorrow(new Kitchen(k.story, k.stock, k.day, k.by, k.day.ms('18:05')), carried);
  const plan = approvePlan(k.story, 2, k.day.ms('11:30'));
  k.story.plant(
    'plan-changed-off-line',
    'A second version of the plan came into force at 11:30; the sourdough of 12:20 was begun off line by the first',
    k.day.date,
    [before, plan, made.make],
  );
}

/** The farm shop gets six baps fewer than were loaded, and nobody finds them. */
export function roundShort(k: Kitchen, baps: Batch, sent: string): void {
  baps.left -= 6;
  const short = deviationReported(
    k,
    'batch',
    baps.id,
    'process-check',
    'the farm shop rang: eighteen baps in the crate, not twenty-four',
    '09:20',
    'lead',
  );
  const counted = k.story.tell('lot-counted', { lot: baps.id, place: null, quantity: { figure: '0', unit: 'piece' } }, k.options('16:45'));
  closed(k, short, '17:00', 'nobody found them; the van is counted out loud from now on');
  k.story.plant('round-short', 'Six baps of 216 that nobody can find: a crate came short', k.day.date, [sent, short, counted, baps.id]);
}

export function frictionFound(k: Kitchen, carried: Carried): void {
  const found = deviationReported(
    k,
    'place',
    k.placeId('mixer'),
    'process-check',
    'white dough warmer every night this week, at the same minutes: the spiral’s bearing runs hot',
    '16:00',
    'lead',
  );
  k.story.tell(
    'corrective-action-taken',
    { deviation: found, type: 'repaired' },
    k.options('16:30', { by: 'lead', words: { action: 'bearing greased' } }),
  );
  for (const reading of carried.tooWarm) closed(k, deviationOf(reading), '16:40', 'the mixer’s bearing', 'owner');
  closed(k, found, '16:45', 'back at a factor of 14 the next night');
  k.story.plant('friction-drift', 'The friction factor of the white dough rises for five nights: a bearing', k.day.date, [
    ...carried.tooWarm,
    found,
  ]);
}

export function leaver(k: Kitchen): void {
  const left = k.story.tell('person-left', { person: k.story.person.day }, { at: k.day.ms('21:00'), by: 'owner', where: 'organisation' });
  k.story.plant('leaver', 'Kit Arundel left: readable in the records, and cannot sign on', k.day.date, [left, k.story.person.day]);
}

/** Ground almond for the week; lot A77 is the last. */
export function almonds(k: Kitchen, comesIn: (k: Kitchen, code: string, grams: number, asWritten: string) => string): void {
  const { ago } = k.day;
  if (ago !== 7) {
    comesIn(k, `A${77 - ago / 7 + 1}`, 7_000, '7 kg');
    return;
  }
  const lot = comesIn(k, 'A77', 12_500, '12.5 kg');
  k.story.tell(
    'sent-out',
    { channel: 'sample', customer: null, unattended: false, until: null, lines: [{ lots: [lot], quantity: g(50), how: 'weighed' }] },
    k.options('08:00', { words: { note: 'to the laboratory' } }),
  );
}

/** The last morning: what is left of A77 is weighed, and the importer rings. */
export function theCall(k: Kitchen, stock: Stock): void {
  const lot = stock.current('almond');
  if (lot === null) return;
  const counted = k.story.tell('lot-counted', { lot, place: k.placeId('dryStore'), quantity: g(5_360) }, k.options('07:12'));
  const call = k.story.tell(
    'deviation-reported',
    { subjectType: 'lot', subject: lot, class: 'ccp', holds: true },
    k.options('07:30', {
      by: 'owner',
      words: {
        what: 'Ninefold rang: ground almond A77 may hold Salmonella. They write in the course of the morning. Nobody has answered yet.',
      },
    }),
  );
  k.story.plant('call-left-open', 'The importer rang about ground almond A77, Salmonella: left open', k.day.date, [call, lot, counted]);
}
