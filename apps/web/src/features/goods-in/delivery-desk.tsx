import type { Deliveries } from '@bakehouse/contracts';
import { daysAfter, siteDay } from '@bakehouse/kernel';
import { isOnHold } from '@bakehouse/views';
import { useMemo } from 'react';
import { useRoute } from 'wouter';
import { whole } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { OnHold } from '../../shared/concerns';
import { Shown } from '../../shared/use-loaded';
import { Caution, Empty, Screen, StateWord } from '../../ui';
import { Beside, DataTable, type Column } from '../../ui/table';
import { Days, elsewhere, useDeliveries, WaysIn } from './deliveries';
import { deliveryTitle, needsSomebody, One, type Delivery } from './delivery';
import { NotIdentified } from './not-identified';

/** What came in, at the desk: one row a delivery, those that wait for a decision or a code first. */
export function DeliveryDesk() {
  const { site } = useTabletState();
  const [, params] = useRoute<{ readonly day: string; readonly id: string }>('/office/goods/of/:day/:id');
  const begin = params === null ? undefined : daysAfter(params.day, 15);
  const { loaded, notIdentified, reload, days } = useDeliveries(begin);
  const columns = useMemo(() => columnsIn(site.zone), [site.zone]);
  const list = (
    <Screen
      title="Goods in"
      wide
      back={{ to: office.home, text: 'Office' }}
      actions={<WaysIn delivery={`${office.goods}/new`} unattended={`${office.goods}/unattended`} />}
    >
      <Shown of={loaded}>
        {(all) => (
          <>
            <NotIdentified lots={elsewhere(notIdentified, all)} onDone={reload} />
            <DataTable
              label="Deliveries"
              find="Find a supplier, a note number, a material or a lot code"
              columns={columns}
              rows={waitingFirst(all)}
              keyOf={(d) => d.id}
              to={(d) => office.delivery(siteDay(d.receivedAt, site), d.id)}
              opened={params?.id}
              none="Nothing came in these days."
            />
          </>
        )}
      </Shown>
      <Days {...days} />
      <Caution />
    </Screen>
  );
  return (
    <Beside
      opened={params?.id}
      closed={office.goods}
      list={list}
      shown={(id) => <DeliveryPage key={id} id={id} loaded={loaded} onDone={reload} />}
    />
  );
}

interface PageProps {
  readonly id: string;
  readonly loaded: ReturnType<typeof useDeliveries>['loaded'];
  readonly onDone: () => void;
}

/** One delivery with its lines, photo and decisions. */
function DeliveryPage({ id, loaded, onDone }: PageProps) {
  const { site } = useTabletState();
  return (
    <Shown of={loaded}>
      {(all) => {
        const d = all.find((one) => one.id === id);
        return (
          <Screen title={d ? deliveryTitle(d, site.zone) : 'No such delivery'} back={{ to: office.goods, text: 'Goods in' }}>
            {d ? <One d={d} onDone={onDone} headed={false} /> : <Empty>No such delivery came in these days.</Empty>}
            <Caution />
          </Screen>
        );
      }}
    </Shown>
  );
}

const waits = (d: Delivery): number => d.lines.filter(needsSomebody).length;
const waitingFirst = (all: Deliveries): Deliveries => [...all.filter((d) => waits(d) > 0), ...all.filter((d) => waits(d) === 0)];
const isHeld = (d: Delivery): boolean => d.lines.some(isOnHold);

const openText = (d: Delivery): string => `for a decision or a code: ${whole(waits(d))}`;

/** What it still needs, or that it needs nothing. */
function stateText(d: Delivery): string {
  const said = waits(d) === 0 ? 'nothing waits' : openText(d);
  return isHeld(d) ? `on hold; ${said}` : said;
}

const columnsIn = (zone: string): readonly Column<Delivery>[] => [
  { id: 'supplier', head: 'Supplier', text: (d) => d.supplierName ?? 'supplier not known' },
  { id: 'at', head: 'Came', text: (d) => dayTime(d.receivedAt, zone), by: (d) => d.receivedAt },
  { id: 'note', head: 'Note', text: (d) => d.note ?? 'no paper', shown: (d) => d.note ?? <span className="faint">no paper</span> },
  {
    id: 'state',
    head: 'State',
    text: stateText,
    by: (d) => waits(d) * 2 + Number(isHeld(d)),
    shown: (d) => (
      <>
        {isHeld(d) ? <OnHold /> : null}{' '}
        {waits(d) === 0 ? (
          <span className="faint">nothing waits</span>
        ) : (
          <StateWord shape="diamond" tone="ask">
            {openText(d)}
          </StateWord>
        )}
      </>
    ),
  },
  { id: 'what', head: 'What came', text: (d) => d.lines.map((l) => l.name).join(', '), look: 'long', spare: true },
  { id: 'codes', head: 'Lot codes', text: (d) => d.lines.map((l) => l.code ?? 'no code').join(', '), look: 'long', spare: true },
  {
    id: 'there',
    head: 'Taken in',
    text: (d) => `${d.unattended ? 'found, nobody was there; ' : ''}recorded by ${d.by ?? 'somebody whose name is withheld'}`,
    spare: true,
  },
];
