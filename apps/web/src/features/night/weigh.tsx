import { grouped, sumOfKnown, type Allergen } from '@bakehouse/kernel';
import { phrase, type OutcomeOf, type PayloadFor, type ProposedLine, type Row } from '@bakehouse/records';
import { type MakeView } from '@bakehouse/views';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { mass, inGrams } from '../../shared/format';
import { Button, Empty, Notice, Screen, Section } from '../../ui';
import { AdjustMake } from './adjust-make';
import { AmountSheet, type Amount } from './amount-sheet';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { linesFor, openFor } from '../../shared/night/lots';
import { LotCell } from './lot-cell';
import { OpenSheet } from './open-sheet';
import { paths } from '../../shared/night/paths';
import { useAct } from '../../shared/use-act';
import { useNight, type Night } from '../../shared/night/use-night';
import { NotHere } from '../../shared/night/not-here';

interface Line extends Amount {
  readonly key: string;
  readonly material: string;
  readonly name: string;
  readonly lot: string | null;
  /** Other lots of it that were open, where nobody knows which of them went in. */
  readonly orLots: readonly string[];
  /** How many lots of it were open. */
  readonly open: number;
}

/** What goes in, filled in already: amounts from the formula, lots from what is open. One tap takes it all; a tap on a line changes it. */
export function Weigh({ id }: { readonly id: string }) {
  const night = useNight();
  const { view, state } = night;
  const [, go] = useLocation();
  const [changed, setChanged] = useState<ReadonlyMap<string, Amount>>(new Map());
  const [unsure, setUnsure] = useState<ReadonlySet<string>>(new Set());
  const [editing, setEditing] = useState<Line>();
  const { act, busy, trouble } = useAct();
  const { unlessTroubled, asked } = useAllTheSame();
  const make = state.rows.get('make', id);
  const seen = view.makes.find((m) => m.id === id);
  const version = make && state.rows.get('formulaVersion', make.formulaVersion);
  const back = { to: paths.make(id), text: make?.formulaName ?? 'Mix' };
  if (!make || !seen || !version) return <NotHere title="Weigh in" back={back} what="mix" />;
  const lines = linesToWeigh(night, { make, seen, version, changed, unsure });
  const turn = (material: string): void => {
    const now = new Set(unsure);
    if (!now.delete(material)) now.add(material);
    setUnsure(now);
  };
  const record = async (): Promise<void> => {
    if (await act({ kind: 'weighed-in', payload: { make: id, lines: lines.map(asPayload) } })) go(paths.make(id));
  };
  const allIn = (): void =>
    unlessTroubled(
      lines.flatMap((l) => [l.lot, ...l.orLots]),
      () => void record(),
    );
  return (
    <Screen
      title={`${make.formulaName}: weigh in`}
      back={back}
      actions={
        lines.length === 0 ? null : (
          <Button look="go" disabled={busy} onClick={allIn}>
            All in as shown
          </Button>
        )
      }
    >
      {trouble}
      {asked}
      <Proposed make={make} lines={lines} onEdit={setEditing} onUnsure={turn} />
      <Section title="Half-way, or something else">
        <AdjustMake make={make} version={version} />
      </Section>
      {editing ? (
        <AmountSheet
          title={editing.name}
          value={editing}
          onClose={() => setEditing(undefined)}
          onDone={(amount) => {
            setChanged(new Map(changed).set(editing.key, amount));
            setEditing(undefined);
          }}
        />
      ) : null}
    </Screen>
  );
}

/** The lines, with another sack opened where one ran out or none is open. */
function Proposed({ make, lines, onEdit, onUnsure }: Omit<TableProps, 'onOpen'> & { readonly make: Row<'make'> }) {
  const { lookup, now } = useNight();
  const [opening, setOpening] = useState<Line>();
  const [opened, setOpened] = useState<OutcomeOf<'lot-opened'>>();
  const station = (line: Line): string | null =>
    openFor(lookup, make.station, make.at, now).find((o) => o.lot === line.lot && o.material === line.material)?.station ?? make.station;
  return (
    <>
      {opened ? <OpenedNotice found={opened} /> : null}
      {lines.length === 0 ? (
        <Empty>Everything of the formula is in.</Empty>
      ) : (
        <LinesTable lines={lines} onEdit={onEdit} onOpen={setOpening} onUnsure={onUnsure} />
      )}
      {opening ? (
        <OpenSheet
          station={station(opening)}
          material={opening.material}
          name={opening.name}
          emptied={opening.lot}
          onClose={() => setOpening(undefined)}
          onOpened={(found) => {
            setOpened(found);
            setOpening(undefined);
          }}
        />
      ) : null}
    </>
  );
}

interface Weighing {
  readonly make: Row<'make'>;
  readonly seen: MakeView;
  readonly version: Row<'formulaVersion'>;
  readonly changed: ReadonlyMap<string, Amount>;
  /** Materials of which nobody knows which open lot went in. */
  readonly unsure: ReadonlySet<string>;
}

/** What the formula asks for and is not in yet, from the lots that are open; an amount that was typed stands for the proposed one. */
function linesToWeigh({ lookup, state, now }: Night, { make, seen, version, changed, unsure }: Weighing): Line[] {
  const weighed = new Set(seen.lines.filter((l) => l.type === 'ingredient').flatMap((l) => state.rows.get('lot', l.lot)?.material ?? []));
  const names = new Map(version.content.lines.map((l) => [l.material, l.name]));
  const open = grouped(openFor(lookup, make.station, make.at, now), (o) => o.material);
  const proposed = linesFor(lookup, { version, plannedMg: make.plannedMg, station: make.station, from: make.at, to: now }).filter(
    (l) => !weighed.has(l.material),
  );
  return [...grouped(proposed, (l) => l.material)].flatMap(([material, each]) => {
    const lots = [...new Set((open.get(material) ?? []).map((o) => o.lot))];
    const [first] = each;
    const mg = sumOfKnown(each.map((l) => l.mg));
    const lines: readonly Offered[] = first && unsure.has(material) && lots.length > 1 ? [anyOf(first, mg, lots)] : each;
    return lines.map((l): Line => {
      const { orLots = [] } = l;
      const key = `${material} ${[l.lot ?? '', ...orLots].join(' ')}`;
      const amount = changed.get(key) ?? { grams: l.mg === null ? null : inGrams(l.mg), how: l.how };
      return { key, material, name: names.get(material) ?? '', lot: l.lot, orLots, open: lots.length, ...amount };
    });
  });
}

type Offered = ProposedLine & { readonly orLots?: readonly string[] };

/** One amount of whichever of these lots it was: what the formula asks for, where it is known. */
const anyOf = (line: ProposedLine, mg: number | null, [lot = null, ...orLots]: readonly (string | null)[]): Offered => ({
  ...line,
  mg,
  lot,
  orLots: orLots.filter((one) => one !== null),
  how: mg === null ? line.how : ('by-recipe' as const),
});

const asPayload = (l: Line): PayloadFor<'weighed-in'>['lines'][number] => ({
  material: l.material,
  lot: l.lot,
  ...(l.orLots.length === 0 ? {} : { orLots: [...l.orLots] }),
  quantity: l.grams === null ? null : { figure: l.grams, unit: 'g' },
  how: l.how,
  type: 'ingredient',
});

interface TableProps {
  readonly lines: readonly Line[];
  readonly onEdit: (line: Line) => void;
  readonly onOpen: (line: Line) => void;
  readonly onUnsure: (material: string) => void;
}

const amountOf = ({ grams }: Line): string => (grams === null ? 'how much?' : mass(Number(grams) * 1000));

function LinesTable({ lines, onEdit, onOpen, onUnsure }: TableProps) {
  return (
    <table className="lines">
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col" className="amount">
            How much
          </th>
          <th scope="col">How known</th>
          <th scope="col">Lot</th>
          <th scope="col">
            <span className="unseen">Changes</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {lines.map((l) => (
          <tr key={l.key}>
            <td>{l.name}</td>
            <td className="amount">
              <Button label={`${l.name}: change ${amountOf(l)}`} onClick={() => onEdit(l)}>
                {amountOf(l)}
              </Button>
            </td>
            <td>{phrase(`how.${l.how}`)}</td>
            <td>
              <Lots line={l} />
            </td>
            <td>
              <span className="line-keys">
                {l.open > 1 ? (
                  <Button
                    label={`${l.name}: ${l.orLots.length > 0 ? 'I know which' : 'not sure which'}`}
                    onClick={() => onUnsure(l.material)}
                  >
                    {l.orLots.length > 0 ? 'I know which' : 'Not sure which'}
                  </Button>
                ) : null}
                <Button label={`${l.name}: ${l.lot === null ? 'open one' : 'ran out'}`} onClick={() => onOpen(l)}>
                  {l.lot === null ? 'Open one' : 'Ran out'}
                </Button>
              </span>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Lots({ line: { lot, orLots } }: { readonly line: Line }) {
  if (lot === null) return <span className="faint">nothing open</span>;
  if (orLots.length === 0) return <LotCell lot={lot} />;
  return (
    <>
      any of{' '}
      {[lot, ...orLots].map((one) => (
        <div key={one}>
          <LotCell lot={one} />
        </div>
      ))}
    </>
  );
}

/** What comes in with a lot that was just opened: allergens that were not there before, and whether it should be used at all. */
export function OpenedNotice({
  found: {
    name,
    newAllergens: { contains, mayContain },
    trouble,
    alikeHeld,
    instead,
  },
}: {
  readonly found: OutcomeOf<'lot-opened'>;
}) {
  const said = (list: readonly Allergen[]): string => list.map((a) => phrase(`allergen.${a}`)).join(', ');
  return (
    <>
      {trouble === null ? null : (
        <Notice tone="bad" title={`${name}: ${phrase(`trouble.${trouble}`)}`}>
          <p>It is on record that it was opened. Take another one, or ask the person who decides.</p>
        </Notice>
      )}
      {alikeHeld === null || alikeHeld.length === 0 ? null : (
        <Notice tone="ask" title={`${name}: another lot with the same code is on hold`}>
          <p>They may be one lot of the supplier’s. Look at what speaks against the other, and ask the person who decides.</p>
        </Notice>
      )}
      {contains.length + mayContain.length === 0 ? null : (
        <Notice tone="ask" title={`${name} brings in something new`}>
          {contains.length === 0 ? null : <p>Now contains: {said(contains)}.</p>}
          {mayContain.length === 0 ? null : <p>Now may contain: {said(mayContain)}.</p>}
          <p>Tickets and labels of what is made with it from now on must say so.</p>
        </Notice>
      )}
      {contains.length + mayContain.length === 0 && trouble === null ? (
        <Notice tone="good" title={`${name} is open${instead ? ', used instead' : ''}`} />
      ) : null}
    </>
  );
}
