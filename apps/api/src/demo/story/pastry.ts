import type { Carried } from './carried.js';
import { type Batch, type Kitchen } from './kitchen.js';
import { deviationOf, g } from './story.js';

/** 80 tartlets from a frangipane of 1,000 g ground almond: 78 good, two rejects. */
export function tartlets(k: Kitchen, carried: Carried): { batch: Batch; frangipane: string } {
  const frangipane = k.begin('frangipane', '02:02', 'smallMixer');
  k.weigh(frangipane, 'frangipane', '02:04', 'smallMixer', {
    almond: k.stock.take('almond', 'smallMixer', 1_000, k.day.ms('02:04'), k.by, 'by-recipe'),
  });
  const filled = k.begin('tartlets', '02:25', 'bench');
  k.weigh(filled, 'tartlets', '02:35', 'bench', { frangipane: [k.line('frangipane', frangipane, 4_150)] });
  const {
    runs: [run = ''],
  } = k.divide(filled, '02:50', [['tartlet', 80, 123]], { scrap: 322 });
  const load = k.bake('03:25', '03:49', 'rackOven', null, [170, 24], [run, 80]);
  k.read('tartlet-core', 'load', load, { celsius: k.story.chance.tenths(77, 84) }, '03:50', { seconds: 30 });
  const batch = k.count('tartlet', filled, run, [load], 78, 2, '04:35');
  k.release(batch, '04:36');
  carried.shelf.push(batch);
  return { batch, frangipane };
}

/** Bowl, beater and bench after almonds, looked at before anything else is mixed there. */
export function cleanAfterAlmonds(k: Kitchen): string[] {
  const clean = (place: 'smallMixer' | 'bench', time: string): string =>
    k.story.tell(
      'cleaned-down',
      {
        place: k.placeId(place),
        type: 'allergen-change',
        chemical: 'sanitiser',
        dilution: '1:50',
        contactSeconds: 300,
      },
      k.options(time),
    );
  return [
    clean('smallMixer', '03:04'),
    clean('bench', '03:12'),
    k.read('after-almonds', 'place', k.placeId('smallMixer'), { yes: true }, '03:13'),
  ];
}

/** Fifteen treacle tarts, sweetened crumb of our own bread in them. `egg` is a lot that nobody could name when it was used. */
export function tarts(
  k: Kitchen,
  carried: Carried,
  of: { egg?: string; late?: boolean } = {},
): { batch: Batch; make: string; weighed: string } {
  const [begin, weigh, divide, into, out, core, count, release] = of.late
    ? (['06:00', '06:05', '06:20', '06:36', '07:14', '07:15', '07:25', '07:26'] as const)
    : (['03:30', '03:35', '04:00', '05:28', '06:06', '06:08', '06:20', '06:21'] as const);
  const make = k.begin('tarts', begin, 'smallMixer');
  carried.crumb.left -= 1_350;
  const crumb = [k.line('crumb', carried.crumb.lot, 1_350, { type: 'rework' })];
  const weighed = k.weigh(make, 'tarts', weigh, 'smallMixer', {
    crumb,
    ...(of.egg === undefined ? {} : { egg: [k.line('egg', of.egg, 540)] }),
  });
  const {
    runs: [run = ''],
  } = k.divide(make, divide, [['tart', 15, 740]], { scrap: 195 });
  const load = k.bake(into, out, 'rackOven', null, [165, 38], [run, 15]);
  k.read('tart-core', 'load', load, { celsius: k.story.chance.tenths(96, 104) }, core, { instrument: 'second' });
  const batch = k.count('tart', make, run, [load], 15, 0, count);
  k.release(batch, release);
  carried.shelf.push(batch);
  return { batch, make, weighed };
}

/** Sixty pork rolls; the egg wash lives for its hours and is thrown away. */
export function rolls(k: Kitchen, carried: Carried): { batch: Batch; wash: string } {
  const filling = k.begin('porkFilling', '02:55', 'coldTable');
  k.weigh(filling, 'porkFilling', '03:00', 'coldTable');
  const make = k.begin('rolls', '03:18', 'coldTable');
  k.weigh(make, 'rolls', '03:20', 'coldTable', { porkFilling: [k.line('porkFilling', filling, 6_900)] });
  k.stock.wasted(filling, 85, k.day.ms('03:22'), k.by);
  const {
    runs: [run = ''],
  } = k.divide(make, '03:40', [['roll', 60, 185]], { scrap: 0 });
  const wash = k.begin('wash', '03:42', 'coldTable');
  k.weigh(wash, 'wash', '03:43', 'coldTable');
  k.addOn(run, 'wash', wash, 240, '03:50');
  const load = k.bake('03:54', '04:21', 'rackOven', null, [200, 27], [run, 60]);
  k.read('roll-core', 'load', load, { celsius: k.story.chance.tenths(78, 84) }, '04:22', { instrument: 'second', seconds: 30 });
  const batch = k.count('roll', make, run, [load], 60, 0, '04:38');
  k.release(batch, '04:39');
  carried.shelf.push(batch);
  return { batch, wash };
}

/** What is left of the egg wash goes. */
export function throwWashAway(k: Kitchen, wash: string): void {
  k.read('wash-age', 'make', wash, { minutes: 168 }, '06:30', { instrument: null });
  k.stock.wasted(wash, 160, k.day.ms('06:31'), k.by);
}

/** Custard cooked, cooled in the blast chiller, and filled into 72 slices. */
export function custardSlices(k: Kitchen, carried: Carried): Batch {
  const make = k.begin('custard', '04:45', 'stove');
  k.weigh(make, 'custard', '04:50', 'stove');
  k.read('custard-cook', 'make', make, { celsius: k.story.chance.tenths(95.8, 97.4) }, '05:34', { instrument: 'second', seconds: 90 });
  k.story.tell('make-ended', { make, quantity: g(8_796), how: 'weighed' }, k.options('05:50'));
  k.pass('cool', 'in', 'chiller', '06:00', ['make', make]);
  k.pass('cool', 'out', 'chiller', '07:20', ['make', make]);
  k.read('custard-cool', 'make', make, { minutes: k.story.chance.whole(66, 82) }, '07:21');
  return filled(k, carried, [[make, 8_640]], 72, make, 8_796 - 8_640);
}

/** Two trays of one custard, one of them under a lid: it cools too slowly and is destroyed; the other makes 36 slices. */
export function slowTray(k: Kitchen, carried: Carried): { slow: string; destroyed: string; batch: Batch } {
  const trays = (['A', 'B'] as const).map((tray) => {
    const make = k.begin('custard', tray === 'A' ? '04:45' : '04:46', 'stove', { grams: 4_488 });
    k.weigh(make, 'custard', tray === 'A' ? '04:50' : '04:51', 'stove', {}, 0.5);
    k.read('custard-cook', 'make', make, { celsius: '96.8' }, '05:34', { instrument: 'second', seconds: 90 });
    k.story.tell('make-ended', { make, quantity: g(tray === 'A' ? 4_400 : 4_396), how: 'weighed' }, k.options('05:50'));
    k.pass('cool', 'in', 'chiller', '06:05', ['make', make]);
    return make;
  });
  const [a = '', b = ''] = trays;
  k.pass('cool', 'out', 'chiller', '07:20', ['make', a]);
  k.read('custard-cool', 'make', a, { minutes: 75 }, '07:21');
  k.pass('cool', 'out', 'chiller', '08:25', ['make', b]);
  const slow = k.read('custard-cool', 'make', b, { minutes: 140 }, '08:26', {
    words: { note: 'tray B was under a lid: 14.6 °C at 07:35' },
  });
  const options = { by: 'lead', words: { note: 'cooled for 140 minutes; the house allows 90' } } as const;
  const destroyed = k.story.tell(
    'disposition-decided',
    { deviation: deviationOf(slow), lot: null, disposition: 'destroyed', covers: 'this-alone', concerns: [], quantity: g(4_396) },
    k.options('08:40', options),
  );
  k.story.tell(
    'deviation-closed',
    { deviation: deviationOf(slow), staysOnHold: [] },
    k.options('15:10', { by: 'owner', words: { review: 'no lids in the chiller; the card on its door says so' } }),
  );
  return { slow, destroyed, batch: filled(k, carried, [[a, 4_320]], 36, a, 80) };
}

function filled(
  k: Kitchen,
  carried: Carried,
  custard: readonly (readonly [make: string, grams: number])[],
  pieces: number,
  leftIn: string,
  left: number,
): Batch {
  const make = k.begin('slices', '08:50', 'bench', { grams: (16_006 * pieces) / 72 });
  k.weigh(make, 'slices', '08:55', 'bench', { custard: custard.map(([lot, grams]) => k.line('custard', lot, grams)) }, pieces / 72);
  if (left > 0) k.stock.wasted(leftIn, left, k.day.ms('08:56'), k.by);
  const {
    runs: [run = ''],
  } = k.divide(make, '09:20', [['slice', pieces, 195]], { scrap: (1_966 * pieces) / 72 });
  const batch = k.count('slice', make, run, [], pieces, 0, '10:20');
  k.read('slice-chilled', 'batch', batch.id, { celsius: k.story.chance.tenths(2.8, 4.3) }, '10:21', { instrument: 'second' });
  k.release(batch, '10:22');
  carried.shelf.push(batch);
  return batch;
}
