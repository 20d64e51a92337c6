import type { Carried } from './carried.js';
import { type Batch, type Kitchen } from './kitchen.js';
import { deviationOf, g } from './story.js';

/** What is not as usual with a night's white dough. */
export interface WhiteOdds {
  readonly fast?: number;
  readonly dough?: number;
  readonly friction?: number;
  /** The bloomers come out at 87.9 °C and go back in. */
  readonly lowBloomers?: boolean;
  readonly tinCore?: 'typed as 940';
  readonly bapCore?: 'never taken';
  readonly seeds?: 'no lot';
  /** Tin oil went on everything, and when the baps may be released: not before their labels are right. */
  readonly oilOnAll?: boolean;
  readonly bapsReleased?: string;
}
export interface WhiteBaked {
  readonly make: string;
  readonly weighed: string;
  readonly dough: string;
  readonly tins: Batch;
  readonly bloomers: Batch;
  readonly baps: Batch;
  readonly entries: Record<string, string>;
}

/** One dough, three breads: 41,450 g into 20 tins, 12 bloomers and 216 baps, with 1,200 g of old dough and 270 g of scrap. */
export function whiteBread(k: Kitchen, carried: Carried, odds: WhiteOdds = {}): WhiteBaked {
  const { chance } = k.story;
  const entries: Record<string, string> = {};
  const make = k.begin('white', '01:50', 'mixer');
  const weighed = k.weigh(make, 'white', '01:55', 'mixer');
  const dough = k.mix(make, 'white', '02:06', 'dough-white', odds);
  k.pass('rest', 'in', null, '02:08', ['make', make]);
  k.pass('rest', 'out', null, '02:53', ['make', make]);
  const { runs, oldDough } = k.divide(
    make,
    '03:00',
    [
      ['tin', 20, 910],
      ['bloomer', 12, 465],
      ['bap', 216, 75],
    ],
    { scrap: 270, oldDough: 1_200 },
  );
  const [tins = '', bloomers = '', baps = ''] = runs;
  carried.oldDough = oldDough;
  const oil = k.stock.current('tinOil');
  if (oil !== null) k.stock.open('tinOil', 'table', oil, k.day.ms('03:01'), k.by);
  for (const run of odds.oilOnAll ? runs : [tins]) k.addOn(run, 'tinOil', oil, null, '03:02');
  if (odds.seeds === 'no lot') entries['seeds'] = k.addOn(bloomers, 'seeds', null, 144, '03:05');
  else
    for (const l of k.stock.take('seeds', 'table', 144, k.day.ms('03:05'), k.by))
      k.addOn(bloomers, 'seeds', l.lot, Number(l.quantity?.figure ?? 0), '03:05');
  k.pass('prove', 'in', 'prover', '03:10', ['run', tins], ['run', bloomers], ['run', baps]);
  k.pass('prove', 'out', 'prover', '04:08', ['run', tins], ['run', bloomers], ['run', baps]);
  const tinLoads = [
    k.bake('04:10', '04:40', 'deckOven', 'middleDeck', [225, 30], [tins, 10]),
    k.bake('04:12', '04:42', 'deckOven', 'bottomDeck', [225, 30], [tins, 10]),
  ];
  if (odds.tinCore === 'typed as 940') entries['typed'] = k.read('tin-core', 'load', tinLoads[0] ?? '', { celsius: '940' }, '04:41');
  entries['tins'] = k.read('tin-core', 'load', tinLoads[0] ?? '', { celsius: odds.tinCore ? '94.0' : chance.tenths(95, 97.5) }, '04:42', {
    instrument: odds.tinCore ? null : 'p1',
  });
  const bloomerLoad = k.bake('04:44', '05:12', 'deckOven', 'topDeck', [230, 28], [bloomers, 12]);
  const bapLoads = [
    k.bake('04:50', '05:01', 'rackOven', null, [205, 11], [baps, 108]),
    k.bake('05:05', '05:16', 'rackOven', null, [205, 11], [baps, 108]),
  ];
  if (odds.bapCore !== 'never taken')
    entries['baps'] = k.read('bap-core', 'load', bapLoads[0] ?? '', { celsius: chance.tenths(93.2, 96) }, '05:02');
  Object.assign(entries, bloomersDone(k, bloomerLoad, odds.lowBloomers ?? false));
  const batch = {
    tins: k.count('tin', make, tins, tinLoads, 20, 0, '05:18'),
    bloomers: k.count('bloomer', make, bloomers, [bloomerLoad], 12, 0, '05:18'),
    baps: k.count('bap', make, baps, bapLoads, 216, 0, '05:19'),
  };
  k.release(batch.tins, '05:21');
  if (odds.bapCore !== 'never taken') k.release(batch.baps, odds.bapsReleased ?? '05:21');
  if (odds.seeds === 'no lot')
    k.releaseInSpite(batch.bloomers, '05:25', 'the seeds came out of one of the bags in the store; nothing is known against any of them');
  else k.release(batch.bloomers, '05:25');
  carried.shelf.push(batch.tins, batch.bloomers, batch.baps);
  return { make, weighed, dough, ...batch, entries };
}

function bloomersDone(k: Kitchen, load: string, isLow: boolean): Record<string, string> {
  if (!isLow) return { bloomers: k.read('bloomer-core', 'load', load, { celsius: k.story.chance.tenths(94.2, 96) }, '05:12') };
  const low = k.read('bloomer-core', 'load', load, { celsius: '87.9' }, '05:12', { instrument: 'second' });
  const back = k.story.tell('load-stepped', { load, step: 'back-in', minutes: 5 }, k.options('05:13'));
  const action = k.story.tell(
    'corrective-action-taken',
    { deviation: deviationOf(low), type: 'back-in-the-oven' },
    k.options('05:13', { words: { action: 'five minutes more on the top deck' } }),
  );
  k.story.tell('load-stepped', { load, step: 'out-again', minutes: null }, k.options('05:18'));
  const again = k.read('bloomer-core', 'load', load, { celsius: '94.4' }, '05:20', { instrument: 'second' });
  return { low, back, action, bloomers: again };
}

/** Baguettes from yesterday's old dough, part-baked, cooled and frozen. */
export function baguettes(k: Kitchen, carried: Carried): Batch {
  const make = k.begin('baguette', '00:40', 'mixer');
  k.weigh(make, 'baguette', '00:45', 'mixer', { whiteDough: [k.line('whiteDough', carried.oldDough, 1_200)] });
  k.mix(make, 'baguette', '00:56', 'dough-baguette');
  k.pass('rest', 'in', null, '00:58', ['make', make]);
  k.pass('rest', 'out', null, '01:58', ['make', make]);
  const {
    runs: [run = ''],
  } = k.divide(make, '02:14', [['baguette', 69, 310]], { scrap: 126 });
  k.pass('prove', 'in', 'prover', '02:18', ['run', run]);
  k.pass('prove', 'out', 'prover', '02:58', ['run', run]);
  const load = k.bake('03:00', '03:15', 'rackOven', null, [210, 15], [run, 69]);
  k.read('baguette-core', 'load', load, { celsius: k.story.chance.tenths(92.8, 95) }, '03:16');
  const batch = k.count('baguette', make, run, [load], 69, 0, '04:22');
  k.read('baguette-cool', 'batch', batch.id, { minutes: k.story.chance.whole(58, 74) }, '04:23');
  k.pass('freeze', 'in', 'freezer', '04:25', ['batch', batch.id]);
  k.release(batch, '04:26');
  k.pass('freeze', 'out', 'freezer', '07:25', ['batch', batch.id]);
  k.read('baguette-frozen', 'batch', batch.id, { celsius: `-${k.story.chance.tenths(18.8, 21)}` }, '07:26');
  carried.shelf.push(batch);
  return batch;
}

/** The afternoon: leaven out of the tub and into the dough, the tub refreshed, the loaves into the retarder until the morning. */
export function sourdoughForTomorrow(k: Kitchen, carried: Carried, wrongLot = false): { make: string; wrong: string; weighed: string } {
  const bakeDay = k.day.plus(1).date;
  const make = k.begin('sourdough', '12:20', 'mixer', { bakeDay });
  const lines = k.linesOf('sourdough', '12:30', 'mixer', { leaven: [k.line('leaven', carried.leaven, 2_180)] });
  const rye = k.stock.current('rye');
  const wrong = wrongLot
    ? k.weighed(
        make,
        lines.map((l) => (l.material === k.story.material.wholemeal ? { ...l, lot: rye } : l)),
        '12:30',
      )
    : '';
  const weighed = wrongLot
    ? k.weighed(make, lines, '12:34', { corrects: wrong, words: { reason: 'tapped the rye; it was the wholemeal' } })
    : k.weighed(make, lines, '12:30');
  refreshTub(k, carried, '12:38', 420);
  k.mix(make, 'sourdough', '12:42', 'dough-sour');
  k.pass('rest', 'in', null, '12:45', ['make', make]);
  k.pass('rest', 'out', null, '16:15', ['make', make]);
  const {
    runs: [run = ''],
  } = k.divide(make, '16:22', [['loaf', 20, 940]], { scrap: 166 });
  k.pass('retard', 'in', 'retarder', '16:45', ['run', run]);
  carried.loaves = { make, run };
  return { make, wrong, weighed };
}

/** The tub: 420 g kept back, 1,090 g each of rye and water put to it. */
export function refreshTub(k: Kitchen, carried: Carried, time: string, kept: number | null): string {
  const at = k.day.ms(time);
  const added = (['rye', 'water'] as const).flatMap((m) => k.stock.take(m, 'table', 1_090, at, k.by)).map(({ type: _, ...line }) => line);
  carried.leaven = k.story.tell(
    'vessel-topped-up',
    {
      vessel: k.placeId('starterTub'),
      material: k.story.material.leaven,
      kept: kept === null ? null : g(kept),
      keptHow: 'weighed',
      added,
    },
    k.options(time),
  );
  return carried.leaven;
}

/** Yesterday's loaves out of the retarder and into the deck oven. */
export function sourdoughBaked(k: Kitchen, carried: Carried): Batch | undefined {
  if (!carried.loaves) return undefined;
  const { make, run } = carried.loaves;
  carried.loaves = null;
  k.pass('retard', 'out', 'retarder', '03:12', ['run', run]);
  const loads = [
    k.bake('03:20', '04:02', 'deckOven', 'topDeck', [240, 42], [run, 10]),
    k.bake('03:22', '04:04', 'deckOven', 'middleDeck', [240, 42], [run, 10]),
  ];
  k.read('loaf-core', 'load', loads[0] ?? '', { celsius: k.story.chance.tenths(96.7, 98.6) }, '04:03');
  const batch = k.count('loaf', make, run, loads, 20, 0, '04:30');
  k.release(batch, '04:31');
  carried.shelf.push(batch);
  return batch;
}
