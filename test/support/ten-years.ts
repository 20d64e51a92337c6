import type { ClientBase } from 'pg';

/** An id that is ordered by what it is of and by its number, as ids do that were given in the order of time. `n` is SQL or a number. */
const idOf = (of: string, n: string | number): string => `('0190a6d0-7b3c-7${of}-8000-' || lpad(to_hex(${n}), 12, '0'))::uuid`;
const plain = (of: string, n: number): string => `0190a6d0-7b3c-7${of}-8000-${n.toString(16).padStart(12, '0')}`;

const kinds = {
  flour: '001',
  dough: '002',
  run: '003',
  batch: '004',
  starter: '005',
  fed: '006',
  bread: '007',
  placeholder: '008',
} as const;
type Of = keyof typeof kinds;
const id = (of: Of, n: string): string => idOf(kinds[of], n);

/** How long the chain is: a starter refreshed from itself every day for ten years; and how many of its days went on into a dough and its bread. */
export const chain = { days: 3_650, breads: 2_500 } as const;
const stations = 10;

export interface TenYears {
  readonly organisation: string;
  readonly books: readonly [string, string];
  /** A lot by what it is and its number. */
  readonly lot: (of: Of, n: number) => string;
  /** How many units of flour, three doughs, runs and batches stand beside the chain. */
  readonly units: number;
}

/**
 * Ten years of one organisation as the owner of the tables writes them: a starter's chain, and beside it as many units as make up the flows asked for,
 * ten flows each. Nothing joins the units, so a question has the same answer however many there are.
 */
export async function fillTenYears(owner: ClientBase, flows: number): Promise<TenYears> {
  const units = Math.ceil((flows - chain.days - 2 * chain.breads) / 10);
  const house: TenYears = {
    organisation: plain('0ff', 1),
    books: [plain('0fe', 1), plain('0fe', 2)],
    lot: (of, n) => plain(kinds[of], n),
    units,
  };
  await owner.query("INSERT INTO organisation (id, name, created_at) VALUES ($1, 'Ten years', now())", [house.organisation]);
  for (const book of house.books)
    await owner.query("INSERT INTO book (organisation, id, type, name, zone) VALUES ($1, $2, 'site', 'Bench', 'Europe/London')", [
      house.organisation,
      book,
    ]);
  for (const text of statements(house)) await owner.query(text);
  return house;
}

function statements({ organisation, books, units }: TenYears): string[] {
  const unit = `generate_series(1, ${units}) u`;
  const three = `${unit}, generate_series(0, 2) i`;
  const day = (n: number): string => `generate_series(1, ${n}) d`;
  const origin = (book: string, row: string, entry: string): string => `'${organisation}'::uuid, ${book}, ${row}, ${entry}, 1`;
  /** Half of the units are of the other site; each has its own clean-down at the end, so that nothing spreads from one to the next. */
  const bookOf = `(CASE WHEN u % 2 = 0 THEN '${books[0]}' ELSE '${books[1]}' END)::uuid`;
  const first = `'${books[0]}'::uuid`;
  const when = `timestamptz '2016-11-26T00:00:00Z' + (u * (interval '3650 days' / ${units + 1}))`;
  const unitAt = (part: string): string => `(${when} + ${part} * (interval '3650 days' / ${(units + 1) * 20}))::timestamptz(3)`;
  const dayAt = (hour: number): string => `timestamptz '2016-11-26T0${hour}:00:00Z' + d * interval '1 day'`;
  const n = 'u * 3 + i';
  const lot = (from: string, book: string, row: string, [name, type, code]: readonly string[], at: string): string =>
    `INSERT INTO lot (organisation, book, id, entry, seq, material, name, type, code, code_state, mg, at)
     SELECT ${origin(book, row, row)}, ${idOf('0aa', `hashtext(${name}) & 1023`)}, ${name}, ${type}, ${code}, 'on-it', 1000000, ${at} FROM ${from}`;
  const flow = (from: string, book: string, row: string, [source, target, type]: readonly string[], at: string): string =>
    `INSERT INTO flow (organisation, book, id, entry, seq, source, target, mg, how, type, certain, at, day)
     SELECT ${origin(book, row, row)}, ${source}, ${target}, 1000, 'weighed', '${type}', true, ${at}, (${at})::date FROM ${from}`;
  const about = (table: string, columns: string, from: string, row: string, values: string): string =>
    `INSERT INTO ${table} (organisation, book, id, entry, seq, ${columns}) SELECT ${origin(bookOf, row, row)}, ${values} FROM ${from}`;
  return [
    ...chainOf({ day, lot, flow, first, dayAt }),
    lot(unit, bookOf, id('flour', 'u'), ["'Flour ' || u % 40", "'received'", "'L' || u"], unitAt('0')),
    lot(three, bookOf, id('dough', n), ["'Dough ' || u % 60", "'made'", 'NULL'], unitAt('(i + 1)')),
    lot(three, bookOf, id('run', n), ["'Loaf ' || u % 80", "'run'", 'NULL'], unitAt('(i + 4)')),
    lot(three, bookOf, id('batch', n), ["'Loaf ' || u % 80", "'batch'", 'NULL'], unitAt('(i + 7)')),
    flow(three, bookOf, idOf('010', n), [id('flour', 'u'), id('dough', n), 'ingredient'], unitAt('(i + 1)')),
    flow(three, bookOf, idOf('011', n), [id('dough', n), id('run', n), 'divided'], unitAt('(i + 4)')),
    flow(three, bookOf, idOf('012', n), [id('run', n), id('batch', n), 'batched'], unitAt('(i + 7)')),
    flow(unit, bookOf, idOf('013', 'u'), [id('flour', 'u'), id('dough', 'u * 3'), 'late-addition'], unitAt('4')),
    about(
      'make',
      'formula, formula_version, formula_name, type, station, site, bake_day, at',
      three,
      id('dough', n),
      `${idOf('0ab', 'u % 60')}, ${idOf('0ac', 'u % 60')}, 'Dough', 'dough', ${idOf('0ad', `u % ${stations}`)}, ${bookOf}, ${unitAt('0')}::date, ${unitAt('(i + 1)')}`,
    ),
    about('mixed', 'make, causes, at', three, idOf('014', n), `${id('dough', n)}, '[]', ${unitAt('(i + 1)')}`),
    about('clean_down', 'place, type, at', unit, idOf('015', 'u'), `${idOf('0ad', `u % ${stations}`)}, 'wet', ${unitAt('15')}`),
    about(
      'batch',
      'run, make, formula, steps, product, product_name, code, baked_on, pieces, rejects, loads, site, at',
      three,
      id('batch', n),
      `${id('run', n)}, ${id('dough', n)}, ${idOf('0ab', 'u % 60')}, '[]', ${idOf('0ae', 'u % 80')}, 'Loaf', 'B' || u || '-' || i, ${unitAt('7')}::date, 40, 0, '[]', ${bookOf}, ${unitAt('(i + 7)')}`,
    ),
    about(
      'reading',
      readingColumns,
      three,
      idOf('016', n),
      `'batch', ${id('batch', n)}, ${idOf('0af', 'u % 500')}, ${readingValues}, ${unitAt('(i + 8)')}, false`,
    ),
    about(
      'departure',
      'lot, channel, customer, trip, pieces, how, certain, unattended, site, at',
      three,
      idOf('017', n),
      `${id('batch', n)}, 'dispatch', ${idOf('0ba', 'u % 500')}, ${idOf('017', n)}, 38, 'counted', true, false, ${bookOf}, ${unitAt('(i + 10)')}`,
    ),
    about(
      'returned',
      'lot, departure, pieces, how, disposition, site, at',
      unit,
      idOf('018', 'u'),
      `${id('batch', 'u * 3')}, ${idOf('017', 'u * 3')}, 2, 'counted', 'waste', ${bookOf}, ${unitAt('14')}`,
    ),
    about('counted', 'lot, pieces, site, at', three, idOf('019', n), `${id('batch', n)}, 2, ${bookOf}, ${unitAt('13')}`),
    about('on_counter', 'lot, way, site, at', unit, idOf('01a', 'u'), `${id('batch', 'u * 3')}, 'on', ${bookOf}, ${unitAt('12')}`),
    about('lot_identified', 'lot, code, same, at', unit, idOf('01b', 'u'), `${id('placeholder', 'u')}, 'P' || u, NULL, ${unitAt('16')}`),
    about(
      'control_point',
      'plan, key, content',
      'generate_series(0, 499) u',
      idOf('0af', 'u'),
      `${idOf('0bb', '1')}, 'core', '{"step": "bake", "basis": "law"}'`,
    ),
    about(
      'party',
      'party, type, name, vulnerable, unattended, since',
      'generate_series(0, 499) u',
      idOf('0bc', 'u'),
      `${idOf('0ba', 'u')}, 'customer', 'Customer ' || u, false, false, now()`,
    ),
  ];
}

const readingColumns = 'subject_type, subject, point, measured, parameter, figure, unit, verdict, half_width_milli, rule, at, corrected';
const readingValues = "'core', 'core', '96.0', 'degC', 'within', 500, 1";

interface Writing {
  readonly day: (n: number) => string;
  readonly lot: (from: string, book: string, row: string, of: readonly string[], at: string) => string;
  readonly flow: (from: string, book: string, row: string, of: readonly string[], at: string) => string;
  readonly first: string;
  readonly dayAt: (hour: number) => string;
}

/** A starter fed from itself every day, and for most days a dough and its bread. */
function chainOf({ day, lot, flow, first, dayAt }: Writing): string[] {
  const [days, breads] = [day(chain.days), day(chain.breads)];
  return [
    lot(`generate_series(0, ${chain.days}) d`, first, id('starter', 'd'), ["'Starter'", "'made'", 'NULL'], dayAt(1)),
    lot(breads, first, id('fed', 'd'), ["'Sour dough'", "'made'", 'NULL'], dayAt(2)),
    lot(breads, first, id('bread', 'd'), ["'Sour bread'", "'batch'", "'S' || d"], dayAt(3)),
    flow(days, first, idOf('01c', 'd'), [id('starter', 'd - 1'), id('starter', 'd'), 'ingredient'], dayAt(1)),
    flow(breads, first, idOf('01d', 'd'), [id('starter', 'd'), id('fed', 'd'), 'ingredient'], dayAt(2)),
    flow(breads, first, idOf('01e', 'd'), [id('fed', 'd'), id('bread', 'd'), 'batched'], dayAt(3)),
  ];
}
