import { systemClock } from '@bakehouse/offline';
import { phrase, type PhraseKey } from '@bakehouse/records';
import type { LotInStock, LotOnHand, ProductOnHand } from '@bakehouse/views';
import { useMemo, type ReactNode } from 'react';
import { TroubleWord, troubleText } from '../../shared/concerns';
import { ageText, dayText, whole } from '../../shared/format';
import { codeText } from '../../shared/night/code-text';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Caution, Screen, Section } from '../../ui';
import { DataTable, type Column } from '../../ui/table';
import { LotState } from './left';
import { useOnHand } from './use-on-hand';
import { leftText, useStock } from './stock';

type Baked = LotOnHand & Pick<ProductOnHand, 'name'>;

/** What is here by the records: ingredients with what was made for later, and what was baked. A lot opens with where it came from and went. */
export function StockDesk() {
  const { site } = useTabletState();
  const { lots } = useStock();
  const { products } = useOnHand();
  const baked = useMemo(() => products.flatMap((p) => p.lots.map((l) => ({ ...l, name: p.name }))), [products]);
  const stocked = useMemo(() => stockColumns(site.zone), [site.zone]);
  return (
    <Screen title="In stock" wide back={{ to: office.home, text: 'Office' }}>
      <p>By the records. A count at the table says what is really there.</p>
      <Section title="Ingredients, and what was made for later">
        <DataTable
          label="Ingredients in stock"
          columns={stocked}
          rows={lots}
          keyOf={(l) => l.id}
          to={(l) => office.lot(l.id)}
          none="Nothing is in stock by the records. Record what came without a record under Goods in, Unattended delivery."
        />
      </Section>
      <Section title="Baked">
        <DataTable
          label="Baked and here"
          columns={bakedColumns}
          rows={baked}
          keyOf={(l) => l.id}
          to={(l) => office.lot(l.id)}
          none="Nothing that was counted out is left."
        />
      </Section>
      <Caution />
    </Screen>
  );
}

const whereText = ({ where }: Pick<LotInStock, 'where'>): string =>
  where === null ? '' : `${where.some ? 'some of it ' : ''}in ${where.name}`;
const saidText = ({ said }: Pick<LotInStock, 'said'>): string => (said === null ? '' : troubleText(said));

const dated = <T extends Pick<LotInStock, 'useBy' | 'bestBefore'>>(): readonly Column<T>[] => [
  { id: 'useBy', head: 'Use by', text: (l) => (l.useBy === null ? '' : dayText(l.useBy)), by: (l) => l.useBy },
  {
    id: 'best',
    head: 'Best before',
    text: (l) => (l.bestBefore === null ? '' : dayText(l.bestBefore)),
    by: (l) => l.bestBefore,
    spare: true,
  },
];

const stockColumns = (zone: string): readonly Column<LotInStock>[] => [
  { id: 'name', head: 'Name', text: (l) => l.name },
  { id: 'code', head: 'Lot code', text: (l) => codeText(l.code), look: 'code' },
  { id: 'type', head: 'What it is', text: (l) => phrase(`lot.${l.type}` as PhraseKey), spare: true },
  { id: 'at', head: 'Came or made', text: (l) => dayTime(l.at, zone), by: (l) => l.at },
  { id: 'age', head: 'Age', text: (l) => ageText(l.at, systemClock.now().toISOString()), by: (l) => l.at, spare: true },
  ...dated<LotInStock>(),
  { id: 'left', head: 'Left', text: leftText, by: (l) => l.leftMg, look: 'wrap' },
  { id: 'where', head: 'Where', text: whereText, spare: true },
  { id: 'state', head: 'State', text: saidText, shown: (l): ReactNode => <TroubleWord trouble={l.said} /> },
];

const bakedColumns: readonly Column<Baked>[] = [
  { id: 'name', head: 'Name', text: (l) => l.name },
  { id: 'code', head: 'Batch', text: (l) => l.code, look: 'code' },
  { id: 'on', head: 'Baked', text: (l) => dayText(l.bakedOn), by: (l) => l.bakedOn },
  ...dated<Baked>(),
  {
    id: 'left',
    head: 'Pieces',
    text: (l) => (l.left === null ? 'not known: count them' : whole(l.left)),
    by: (l) => l.left,
    look: 'figure',
  },
  { id: 'where', head: 'Where', text: (l) => (l.onCounter === null ? whereText(l) : phrase('counter.on')) },
  {
    id: 'state',
    head: 'State',
    text: (l) => [l.release.replaceAll('-', ' '), saidText(l)].filter((s) => s !== '').join(', '),
    shown: (l) => <LotState lot={l} />,
  },
];
