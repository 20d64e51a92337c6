import { allergenCalled, derivedId, type Allergen } from '@bakehouse/kernel';
import {
  checkedAgainst,
  kindNamed,
  madeHere,
  phrase,
  plainName,
  type MaterialType,
  type NewEntryOf,
  type PayloadFor,
} from '@bakehouse/records';
import { dayOf, fine, listed, not, oneOf, short, whole, yesOrNo, type Read } from './cells.js';
import { tableOf, type Column, type Grid, type Line, type NoTable, type Wrong } from './table.js';

type Payload = PayloadFor<'specification-accepted'>;
type Key =
  | 'name'
  | 'type'
  | 'flour'
  | 'storage'
  | 'countedIn'
  | 'animalOrigin'
  | 'lifeDays'
  | 'lifeOpenedHours'
  | 'density'
  | 'contains'
  | 'mayContain'
  | 'against'
  | 'on'
  | 'supplier';

/** The columns that are understood, in the order in which an empty sheet has them. */
export const materialColumns: readonly Column<Key>[] = [
  { key: 'name', headings: ['Name', 'Material', 'Ingredient', 'Item', 'Description'] },
  { key: 'type', headings: ['Type', 'What it is'] },
  { key: 'flour', headings: ['Flour', 'Is it flour'] },
  { key: 'storage', headings: ['Kept', 'Storage', 'How it is kept'] },
  { key: 'countedIn', headings: ['Reckoned', 'Counted in', 'Reckoned by'] },
  { key: 'animalOrigin', headings: ['Animal origin', 'Of animal origin'] },
  { key: 'lifeDays', headings: ['Days it keeps', 'Shelf life in days', 'Life in days'] },
  { key: 'lifeOpenedHours', headings: ['Hours once open', 'Hours it keeps once open'] },
  { key: 'density', headings: ['Density', 'Density in g/ml', 'Grams per millilitre'] },
  { key: 'contains', headings: ['Contains', 'Allergens', 'Contains allergens'] },
  { key: 'mayContain', headings: ['May contain', 'May contain allergens'] },
  { key: 'against', headings: ['Checked against'] },
  { key: 'on', headings: ['Checked on'] },
  { key: 'supplier', headings: ['Supplier', 'From'] },
];

/** What the house has already. */
export interface Had {
  readonly organisation: string;
  readonly materials: readonly { readonly material: string; readonly name: string }[];
  readonly suppliers: readonly { readonly party: string; readonly name: string | null }[];
  readonly today: string;
}
export interface Offered<K extends 'specification-accepted' | 'party-accepted'> {
  readonly line: number;
  readonly name: string;
  readonly says: string;
  readonly entry: NewEntryOf<K>;
}
export interface MaterialSheet {
  readonly as: 'read';
  /** Suppliers that materials name and the house does not have: they come before the materials. */
  readonly suppliers: readonly Offered<'party-accepted'>[];
  readonly materials: readonly Offered<'specification-accepted'>[];
  readonly existing: readonly { readonly line: number; readonly name: string }[];
  readonly wrong: readonly Wrong[];
  readonly leftOut: readonly string[];
}

/**
 * What a sheet of materials would add to what is there. Nothing is written here. A name that the house has is left as it is; the id of a new one follows from
 * its name, so that two people with the same sheet add it once. What nobody checked stays not known.
 */
export function materialSheet(grid: Grid, had: Had): MaterialSheet | NoTable {
  const table = tableOf(grid, materialColumns, 'name');
  if (table.as === 'refused') return table;
  const known = new Map(had.materials.map((m) => [plainName(m.name), m.name]));
  const ids = new Set(had.materials.map((m) => m.material));
  const seen = new Map<string, number>();
  const suppliers = new Map<string, Offered<'party-accepted'>>();
  const [materials, existing, wrong]: [Offered<'specification-accepted'>[], MaterialSheet['existing'][number][], Wrong[]] = [[], [], []];
  for (const line of table.lines) {
    const name = line.cell('name');
    const before = seen.get(plainName(name));
    const material = materialId(had.organisation, name);
    if (name !== '' && (known.has(plainName(name)) || ids.has(material))) {
      existing.push({ line: line.line, name });
      continue;
    }
    if (name !== '' && before !== undefined) {
      wrong.push(line.wrong('name', `“${short(name)}” stands on line ${before} already: each material once`));
      continue;
    }
    const supplier = supplierOf(line, had);
    const read = payloadFrom(line, material, supplier?.party ?? null, had.today);
    if (!read.ok) {
      wrong.push(...read.wrong);
      continue;
    }
    seen.set(plainName(name), line.line);
    if (supplier?.entry) suppliers.set(supplier.party, suppliers.get(supplier.party) ?? supplier.entry);
    materials.push({ line: line.line, name, says: about(read.payload), entry: { kind: 'specification-accepted', payload: read.payload } });
  }
  return { as: 'read', suppliers: [...suppliers.values()], materials, existing, wrong, leftOut: table.leftOut };
}

/** The id of a material that a sheet or a starter adds: of its house and its name. */
export const materialId = (organisation: string, name: string): string => derivedId(organisation, `material ${plainName(name)}`);
export const partyId = (organisation: string, name: string): string => derivedId(organisation, `party ${plainName(name)}`);

function supplierOf(
  line: Line<Key>,
  { organisation, suppliers }: Had,
): { readonly party: string; readonly entry: Offered<'party-accepted'> | null } | null {
  const name = line.cell('supplier');
  if (name === '' || name.length > 120) return null;
  const there = suppliers.find((s) => s.name !== null && plainName(s.name) === plainName(name));
  if (there) return { party: there.party, entry: null };
  const party = partyId(organisation, name);
  const payload = { party, type: 'supplier', vulnerable: false, unattended: false } as const;
  return { party, entry: { line: line.line, name, says: 'supplier', entry: { kind: 'party-accepted', payload, words: { name } } } };
}

const types: readonly (readonly [MaterialType, ...string[]])[] = [
  ['ingredient', 'ingredient', 'raw material'],
  ['packaging', 'packaging', 'packing'],
  ['aid', 'aid', 'processing aid', 'process aid'],
  ['intermediate', 'intermediate', 'made here', 'dough'],
  ['product', 'product', 'finished product'],
];

type Payloaded = { readonly ok: true; readonly payload: Payload } | { readonly ok: false; readonly wrong: readonly Wrong[] };

function payloadFrom(line: Line<Key>, material: string, supplier: string | null, today: string): Payloaded {
  const wrong: Wrong[] = [];
  const take = <T>(key: Key, read: Read<T>, otherwise: T): T => {
    if (read.ok) return read.value;
    wrong.push(line.wrong(key, read.says));
    return otherwise;
  };
  const name = take('name', nameOf(line.cell('name')), '');
  if (line.cell('supplier').length > 120) wrong.push(line.wrong('supplier', 'a name of at most 120 characters'));
  const type = take('type', oneOf(line.cell('type'), types, 'ingredient'), 'ingredient');
  const checked = checkOf(line, take, today);
  const contains = take('contains', allergensIn(line.cell('contains'), checked !== null), []);
  const payload: Payload = {
    material,
    name,
    type,
    countedIn: take(
      'countedIn',
      oneOf(
        line.cell('countedIn'),
        [
          ['mass', 'weight', 'mass', 'kg', 'g'],
          ['pieces', 'pieces', 'piece', 'each'],
        ],
        'mass',
      ),
      'mass',
    ),
    storage: take(
      'storage',
      oneOf(
        line.cell('storage'),
        [
          ['ambient', 'ambient', 'dry', 'room'],
          ['chilled', 'chilled', 'fridge'],
          ['frozen', 'frozen', 'freezer'],
        ],
        'ambient',
      ),
      'ambient',
    ),
    lifeDays: take('lifeDays', whole(line.cell('lifeDays'), 3_650, 'days'), null),
    lifeOpenedHours: take('lifeOpenedHours', whole(line.cell('lifeOpenedHours'), 87_600, 'hours'), null),
    densityMgPerMl: take('density', densityOf(line.cell('density')), null),
    contains,
    mayContain: take('mayContain', allergensIn(line.cell('mayContain'), checked !== null), []),
    checked,
    flour: take('flour', yesOrNo(line.cell('flour')), false),
    animalOrigin: take('animalOrigin', yesOrNo(line.cell('animalOrigin')), false),
    supplier,
  };
  wrong.push(...(wrong.length === 0 ? againstItself(line, payload) : []));
  return wrong.length === 0 ? { ok: true, payload } : { ok: false, wrong };
}

const nameOf = (text: string): Read<string> => {
  if (text === '') return not('a name is needed');
  return text.length <= 120 ? fine(text) : not('a name of at most 120 characters');
};

/** That somebody checked is said whole or not at all: against what, and when. */
function checkOf(line: Line<Key>, take: <T>(key: Key, read: Read<T>, otherwise: T) => T, today: string): Payload['checked'] {
  const nothing = 'nobody';
  const words = checkedAgainst.options.map((o): readonly [typeof o, ...string[]] => [
    o,
    phrase(`checkedAgainst.${o}`),
    o.replaceAll('-', ' '),
  ]);
  const against = take(
    'against',
    oneOf<(typeof checkedAgainst.options)[number] | typeof nothing>(line.cell('against'), [...words, [nothing]], nothing),
    nothing,
  );
  const on = take('on', dayOf(line.cell('on'), today), null);
  if (against !== nothing && on === null && line.cell('on') === '')
    take('on', not('the day of the check is needed with what it was checked against'), null);
  if (against === nothing && on !== null && line.cell('against') === '')
    take('against', not('what it was checked against is needed with the day'), null);
  return against === nothing || on === null ? null : { against, on };
}

/** “none” is an answer of somebody who looked. Without a check an empty cell says that nobody knows. */
function allergensIn(text: string, checked: boolean): Read<Allergen[]> {
  if (['none', 'nothing', 'no allergens', 'nil', '-'].includes(plainName(text)))
    return checked
      ? fine([])
      : not(`“${text}” is taken only with what it was checked against and when; leave it empty where it is not known`);
  const found: Allergen[] = [];
  for (const word of listed(text)) {
    const allergen = allergenCalled(word);
    if (allergen === undefined)
      return not(`“${short(word)}” names no single allergen of the list: write wheat, milk, eggs, almond and so on`);
    if (!found.includes(allergen)) found.push(allergen);
  }
  return fine(found);
}

function densityOf(text: string): Read<number | null> {
  if (text === '') return fine(null);
  const mg = Math.round(Number(text) * 1000);
  return /^\d(\.\d{1,3})?$/.test(text) && mg >= 100 && mg <= 2_500
    ? fine(mg)
    : not(`“${short(text)}” is not a density in grams per millilitre from 0.1 to 2.5`);
}

const keyOf: Readonly<Partial<Record<string, Key>>> = { densityMgPerMl: 'density', checked: 'against' };

/** What the kind's own rules have against a whole line. */
function againstItself(line: Line<Key>, payload: Payload): Wrong[] {
  if (madeHere(payload.type) && payload.contains.length + payload.mayContain.length > 0)
    return [line.wrong('contains', 'nothing: what is made here contains what its formulas say')];
  if (madeHere(payload.type) && payload.checked !== null)
    return [line.wrong('against', 'nothing: what is made here contains what its formulas say')];
  const read = kindNamed('specification-accepted').payload.safeParse(payload);
  if (read.success) return [];
  return read.error.issues.map((issue) => {
    const field = String(issue.path[0] ?? 'name');
    return line.wrong(keyOf[field] ?? materialColumns.find((c) => c.key === field)?.key ?? 'name', issue.message);
  });
}

function about({ type, storage, contains, mayContain, checked }: Payload): string {
  const named = [
    ...contains.map((a) => `contains ${phrase(`allergen.${a}`)}`),
    ...mayContain.map((a) => `may contain ${phrase(`allergen.${a}`)}`),
  ];
  const rest = madeHere(type)
    ? 'what it contains its formulas say'
    : checked === null
      ? 'nobody checked it: what it does not name is not known'
      : `${named.length === 0 ? 'nothing of the allergen list' : 'nothing else'}, checked on ${checked.on}`;
  return [phrase(`material.${type}`), phrase(`storage.${storage}`), ...named, rest].join('; ');
}
