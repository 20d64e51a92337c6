import { isBaguetteDay, isCustardDay, isRollDay, isTartDay, tartletsOn, type Agenda } from './agenda.js';
import { baguettes, refreshTub, sourdoughBaked, sourdoughForTomorrow, whiteBread, type WhiteBaked, type WhiteOdds } from './bread.js';
import type { Day } from './calendar.js';
import type { Carried } from './carried.js';
import { cleanedDown, probesChecked, storesRead, weeklyCount } from './control.js';
import { almondsIn, goodsIn, mainsWater, type Numbers } from './goods-in.js';
import { Kitchen, type Batch } from './kitchen.js';
import { counterDay, send, shopDay, topUpCrumb, vanOut } from './out.js';
import { cleanAfterAlmonds, custardSlices, rolls, slowTray, tarts, tartlets, throwWashAway } from './pastry.js';
import * as control from './planted-control.js';
import * as goods from './planted-goods.js';
import * as house from './planted-house.js';
import type { Stock } from './stock.js';
import { g, type Story } from './story.js';

export interface Telling {
  readonly story: Story;
  readonly stock: Stock;
  readonly carried: Carried;
  readonly numbers: Numbers;
  readonly agenda: Agenda;
}

/** The first day: everything comes in, the tub and the bin are filled, the first loaves are made. */
export function tellFirstDay(t: Telling, day: Day): void {
  const k = new Kitchen(t.story, t.stock, day, 'day');
  mainsWater(k);
  goodsIn(k, true, t.numbers);
  refreshTub(k, t.carried, '10:40', null);
  t.carried.crumb.lot = t.story.tell(
    'vessel-topped-up',
    {
      vessel: k.placeId('crumbBin'),
      material: t.story.material.crumb,
      kept: null,
      keptHow: 'estimated',
      added: [{ material: t.story.material.tin, lot: null, quantity: g(4_000), how: 'weighed' }],
    },
    k.options('10:50', { words: { note: 'dried tins from before these records began' } }),
  );
  afternoon(t, k);
}

/** One night and the day after it. */
export function tellDay(t: Telling, day: Day): void {
  const { story, stock, carried, agenda } = t;
  const k = new Kitchen(story, stock, day, day.ago % 3 === 1 ? 'lead' : 'night');
  stock.throwAwayExpired(day.date, day.ms('00:10'), k.by);
  if (day.weekday === 1) probesChecked(k, ['p1', story.secondProbe]);
  if (day.ago === 14) control.probeOff(k);
  const baked = night(t, k);
  if (day.ago === 15) control.warmFridge(k);
  storesRead(k, '05:32', day.ago === 15 ? ['dairyFridge'] : []);
  morning(t, k, baked);
  shopDay(k, carried);
  afternoon(t, new Kitchen(story, stock, day, day.ago > 10 ? 'day' : 'pastry'));
  carried.shelf = carried.shelf.filter((b) => b.left > 0);
  if (day.ago === agenda.uncleaned)
    story.tell(
      'deviation-reported',
      { subjectType: 'place', subject: k.placeId('smallMixer'), class: 'ccp', holds: false },
      k.options('14:00', { by: 'lead', words: { what: 'the bowl was not cleaned between the almonds and the treacle' } }),
    );
}

interface Baked {
  readonly white: WhiteBaked;
  readonly rolls: Batch | undefined;
  readonly wash: string | undefined;
  readonly tartlets: Batch;
}

function night(t: Telling, k: Kitchen): Baked {
  const { story, carried, agenda } = t;
  const { ago } = k.day;
  if (isBaguetteDay(k.day)) baguettes(k, carried);
  const flour = t.stock.current('white');
  const white = whiteBread(k, carried, whiteOdds(ago, agenda));
  carried.whites.push({ batch: white.tins, flour, date: k.day.date });
  house.plantWhite(k, carried, white, agenda);
  const almonds = tartlets(k, carried);
  if (ago !== agenda.uncleaned) cleanAfterAlmonds(k);
  const meat = isRollDay(k.day) ? rolls(k, carried) : undefined;
  if (meat && ago === agenda.washToppedUp) control.washToppedUp(k, carried, meat.batch);
  sourdoughBaked(k, carried);
  const egg = ago === 1 ? goods.porch(k).egg : undefined;
  if (isTartDay(k.day, agenda)) {
    const made = tarts(k, carried, egg === undefined ? {} : { egg, late: true });
    if (ago === agenda.uncleaned)
      story.plant(
        'not-cleaned-after-almonds',
        'Treacle tarts for the school out of a bowl that almonds were in, not cleaned between',
        k.day.date,
        [almonds.frangipane, made.make, made.batch.id],
      );
  }
  return { white, rolls: meat?.batch, wash: meat?.wash, tartlets: almonds.batch };
}

/** What is not as usual with the white dough, by days before the last. */
function whiteOdds(ago: number, agenda: Agenda): WhiteOdds {
  const drift = ago >= 9 && ago <= 13 ? 13 - ago : undefined;
  return {
    ...(drift === undefined ? {} : { friction: 15.5 + 2.3 * drift, dough: 26.2 + 0.65 * drift }),
    ...(ago === agenda.split ? { fast: 9, dough: 28.5, friction: 21.5 } : {}),
    ...(ago === 0 ? { lowBloomers: true } : {}),
    ...(ago === 3 ? { tinCore: 'typed as 940', seeds: 'no lot' } : {}),
    ...(ago === 4 ? { bapCore: 'never taken' } : {}),
    ...(ago === 7 ? { oilOnAll: true, bapsReleased: '05:43' } : {}),
  };
}

function morning(t: Telling, k: Kitchen, baked: Baked): void {
  const { story, carried, agenda } = t;
  const { ago } = k.day;
  const week = tartletsOn(k.day, agenda);
  const sent = vanOut(k, carried, { tartletsEach: week.each, ...(ago === agenda.uncleaned ? { tarts: 'all to the school' } : {}) });
  if (week.stall > 0) send(k, baked.tartlets, 'stall', null, week.stall, '06:45');
  if (week.sample > 0) send(k, baked.tartlets, 'sample', null, week.sample, '06:30');
  if (week.donated > 0) send(k, baked.tartlets, 'donation', 'foodBank', week.donated, '06:48');
  if (baked.wash !== undefined) throwWashAway(k, baked.wash);
  if (baked.rolls && ago === agenda.display) control.trayTooLong(k, baked.rolls);
  if (ago === 18) goods.returnsInCrumb(k, carried, (batch, count) => topUpCrumb(k, carried, [[batch, count]], '08:15'));
  if (ago === 3) control.ownReview(k);
  if (ago === 4) control.pinInTwoPlaces(k);
  if (ago === 5) house.roundShort(k, baked.white.baps, sent.get('farmShop') ?? '');
  if (ago === 0) house.theCall(k, t.stock);
  if (ago === 6) {
    const tray = slowTray(k, carried);
    story.plant('slow-tray', 'Tray B of the custard took 140 minutes from 63 to 8 °C: destroyed; tray A made 36 slices', k.day.date, [
      tray.slow,
      tray.destroyed,
      tray.batch.id,
    ]);
  } else if (isCustardDay(k.day)) custardSlices(k, carried);
  counterDay(k, carried, { tartlets: week.counter });
  if (ago === 4) control.soldWithoutCore(k, baked.white.baps);
  if (baked.wash !== undefined) carried.wash = baked.wash;
}

function afternoon(t: Telling, k: Kitchen): void {
  const { story, carried, agenda, numbers } = t;
  const { ago } = k.day;
  if (ago < 7 * story.world.weeks) goodsIn(k, false, numbers, ago === 1 ? 'dairyVan' : null);
  if (ago > 0 && ago % 7 === 0) house.almonds(k, almondsIn);
  if (ago === agenda.split + 1) goods.oneSack(k, numbers);
  if (ago === 8) goods.otherTinOil(k, numbers);
  if (ago === 9) goods.kilogramsForPounds(k, numbers);
  if (ago === 11) goods.bagOfRye(k);
  if (ago === 17) control.twoComplaints(k, carried);
  if (ago === 20) goods.tooMuchJam(k);
  if (ago === 2) house.catchUp(k);
  else cleanedDown(k, ago === agenda.uncleaned ? ['smallMixer'] : []);
  if (ago === 5) house.planChangedMeanwhile(k, carried);
  else {
    const made = sourdoughForTomorrow(k, carried, ago === 6);
    if (ago === 6)
      story.plant('wrong-lot', 'The rye was tapped instead of the wholemeal, and corrected', k.day.date, [
        made.wrong,
        made.weighed,
        made.make,
      ]);
  }
  if (ago === 10) goods.bagOfRyeCounted(k);
  if (k.day.weekday === 1) weeklyCount(k, ago <= 11 && ago >= 10 ? ['rye'] : []);
  if (ago === 12) control.retarderExcursion(k);
  if (ago === 8) house.frictionFound(k, carried);
  if (ago === 10) house.leaver(k);
  storesRead(k, '20:05', ago === 12 ? ['retarder'] : []);
}
