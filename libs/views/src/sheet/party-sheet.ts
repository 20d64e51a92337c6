import { plainName, type PayloadFor } from '@bakehouse/records';
import { oneOf, short, yesOrNo } from './cells.js';
import { partyId, type Had, type Offered } from './material-sheet.js';
import { tableOf, type Column, type Grid, type Line, type NoTable, type Wrong } from './table.js';

const words = [
  ['name', 120],
  ['contactName', 120],
  ['phone', 40],
  ['email', 120],
  ['address', 300],
] as const;
type Word = (typeof words)[number][0];
type Key = Word | 'type' | 'vulnerable' | 'unattended';

export const partyColumns: readonly Column<Key>[] = [
  { key: 'name', headings: ['Name', 'Supplier', 'Customer', 'Company'] },
  { key: 'type', headings: ['Type', 'What they are to us'] },
  { key: 'contactName', headings: ['Contact', 'Contact in a recall', 'Contact name'] },
  { key: 'phone', headings: ['Telephone', 'Phone', 'Tel'] },
  { key: 'email', headings: ['E-mail', 'Email'] },
  { key: 'address', headings: ['Address'] },
  { key: 'vulnerable', headings: ['Vulnerable', 'Children or patients eat there'] },
  { key: 'unattended', headings: ['Unattended', 'Left with nobody there'] },
];

export interface PartySheet {
  readonly as: 'read';
  readonly parties: readonly Offered<'party-accepted'>[];
  readonly existing: readonly { readonly line: number; readonly name: string }[];
  readonly wrong: readonly Wrong[];
  readonly leftOut: readonly string[];
}

const types: readonly (readonly [PayloadFor<'party-accepted'>['type'], ...string[]])[] = [
  ['supplier', 'supplier'],
  ['customer', 'customer'],
  ['own-shop', 'own shop', 'shop'],
  ['donation', 'donation', 'food bank'],
  ['feed', 'feed'],
];

/** What a sheet of suppliers and customers would add. A name that the house has is left as it is, with its telephone number too. */
export function partySheet(
  grid: Grid,
  { organisation, parties }: Pick<Had, 'organisation'> & { readonly parties: Had['suppliers'] },
): PartySheet | NoTable {
  const table = tableOf(grid, partyColumns, 'name');
  if (table.as === 'refused') return table;
  const known = new Set(parties.flatMap((p) => (p.name === null ? [] : [plainName(p.name)])));
  const ids = new Set(parties.map((p) => p.party));
  const seen = new Map<string, number>();
  const [offered, existing, wrong]: [Offered<'party-accepted'>[], PartySheet['existing'][number][], Wrong[]] = [[], [], []];
  for (const line of table.lines) {
    const name = line.cell('name');
    const party = partyId(organisation, name);
    const before = seen.get(plainName(name));
    if (name !== '' && (known.has(plainName(name)) || ids.has(party))) existing.push({ line: line.line, name });
    else if (name !== '' && before !== undefined)
      wrong.push(line.wrong('name', `“${short(name)}” stands on line ${before} already: each of them once`));
    else {
      const read = partyFrom(line, party);
      if (Array.isArray(read)) wrong.push(...read);
      else {
        seen.set(plainName(name), line.line);
        offered.push({ line: line.line, name, ...read });
      }
    }
  }
  return { as: 'read', parties: offered, existing, wrong, leftOut: table.leftOut };
}

function partyFrom(line: Line<Key>, party: string): Pick<Offered<'party-accepted'>, 'entry' | 'says'> | Wrong[] {
  const type = oneOf(line.cell('type'), types, 'supplier');
  const vulnerable = yesOrNo(line.cell('vulnerable'));
  const unattended = yesOrNo(line.cell('unattended'));
  const wrong = [
    ...words.flatMap(([key, most]) => (line.cell(key).length > most ? [line.wrong(key, `at most ${most} characters`)] : [])),
    ...(line.cell('name') === '' ? [line.wrong('name', 'a name is needed')] : []),
    ...(type.ok ? [] : [line.wrong('type', type.says)]),
    ...(vulnerable.ok ? [] : [line.wrong('vulnerable', vulnerable.says)]),
    ...(unattended.ok ? [] : [line.wrong('unattended', unattended.says)]),
  ];
  if (!type.ok || !vulnerable.ok || !unattended.ok || wrong.length > 0) return wrong;
  const payload = { party, type: type.value, vulnerable: vulnerable.value, unattended: unattended.value };
  const said = Object.fromEntries(words.flatMap(([key]) => (line.cell(key) === '' ? [] : [[key, line.cell(key)]])));
  const reachable = line.cell('phone') !== '' || line.cell('email') !== '';
  return {
    entry: { kind: 'party-accepted', payload, words: said },
    says: reachable ? type.value : `${type.value}; with no number nobody can be reached in a recall`,
  };
}
