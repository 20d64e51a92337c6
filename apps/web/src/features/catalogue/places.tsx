import { instrumentList, placeList, type InstrumentList, type PlaceList } from '@bakehouse/contracts';
import { quantityText } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { useMemo, useState, type ReactNode } from 'react';
import { office } from '../../shared/office-paths';
import { SetUpLink } from '../../shared/set-up-link';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { Button, Screen, Section, StateWord } from '../../ui';
import { Beside, DataTable, type Column } from '../../ui/table';
import { CatalogueTabs } from './catalogue-tabs';
import { NewInstrument, NewPlace } from './new-place';
import { ThingPage, type Thing } from './thing';

const noPlace = (
  <>
    Nothing is in use here yet. Begin with where dough is mixed and what bakes. <SetUpLink />
  </>
);

/** Equipment, stations and stores of this site, and what it measures with. */
export function Places({ opened }: { readonly opened: string | undefined }) {
  const { site } = useTabletState();
  const places = useLoaded('/sites/{site}/places', placeList, { params: { path: { site: site.id } } });
  const instruments = useLoaded('/sites/{site}/instruments', instrumentList, { params: { path: { site: site.id } } });
  const [adding, setAdding] = useState<'place' | 'instrument'>();
  const close = (): void => setAdding(undefined);
  const reload = async (): Promise<void> => void (await Promise.all([places.reload(), instruments.reload()]));
  const done = async (): Promise<void> => {
    await reload();
    close();
  };
  const things = useMemo((): readonly Thing[] | undefined => {
    if (places.reply?.as !== 'ok' || instruments.reply?.as !== 'ok') return undefined;
    return [...placesAsThings(places.reply.value), ...instrumentsAsThings(instruments.reply.value, site.zone)];
  }, [places.reply, instruments.reply, site.zone]);
  const columns = useMemo(() => columnsIn(site.zone), [site.zone]);
  const table = (label: string, none: ReactNode, kind: Thing['kind']) => (
    <DataTable
      label={label}
      columns={kind === 'place-out-of-use' ? columns.places : columns.instruments}
      rows={(things ?? []).filter((t) => t.kind === kind)}
      keyOf={(t) => t.id}
      to={(t) => office.place(t.id)}
      opened={opened}
      none={none}
    />
  );
  const list = (
    <Screen title={`Places and probes at ${site.name}`} wide back={{ to: office.home, text: 'Office' }}>
      <CatalogueTabs here={office.places} />
      <Section title="Equipment, stations and stores">
        <Shown of={places}>{() => table('Places', noPlace, 'place-out-of-use')}</Shown>
        <div className="buttons">
          <Button needs="manage.site" onClick={() => setAdding('place')}>
            One more place
          </Button>
        </div>
      </Section>
      <Section title="What is measured with">
        <Shown of={instruments}>
          {() =>
            table(
              'Instruments',
              'Nothing to measure with is in use here yet. Without a probe no temperature can be read.',
              'instrument-out-of-use',
            )
          }
        </Shown>
        <div className="buttons">
          <Button needs="manage.site" onClick={() => setAdding('instrument')}>
            One more instrument
          </Button>
        </div>
      </Section>
      {adding === 'place' ? <NewPlace onDone={() => void done()} onClose={close} /> : null}
      {adding === 'instrument' ? <NewInstrument onDone={() => void done()} onClose={close} /> : null}
    </Screen>
  );
  return (
    <Beside
      opened={opened}
      closed={office.places}
      list={list}
      shown={(id) => <ThingPage key={id} thing={things?.find((t) => t.id === id)} known={things !== undefined} onDone={reload} />}
    />
  );
}

const placesAsThings = (list: PlaceList): Thing[] =>
  list.map((p) => ({
    ...p,
    kind: 'place-out-of-use',
    type: phrase(`place.${p.type}`),
    about: list.find((q) => q.id === p.within)?.name ?? '',
    checked: null,
  }));

const instrumentsAsThings = (list: InstrumentList, zone: string): Thing[] =>
  list.map((i) => ({
    ...i,
    kind: 'instrument-out-of-use',
    type: phrase(`instrument.${i.type}`),
    about: `± ${quantityText(String(i.halfWidthMilli / 1000), i.unit)}`,
    checked: i.lastCheck === null ? 'never checked' : `${dayTime(i.lastCheck.at, zone)}, ${i.lastCheck.passed ? 'passed' : 'not passed'}`,
  }));

function columnsIn(zone: string): { readonly places: readonly Column<Thing>[]; readonly instruments: readonly Column<Thing>[] } {
  const outText = (t: Thing): string => (t.outOfUse === null ? 'in use' : `out of use since ${dayTime(t.outOfUse, zone)}`);
  const name: Column<Thing> = { id: 'name', head: 'Name', text: (t) => t.name };
  const type: Column<Thing> = { id: 'type', head: 'What it is', text: (t) => t.type };
  const about = (head: string): Column<Thing> => ({ id: 'about', head, text: (t) => t.about });
  const state: Column<Thing> = {
    id: 'state',
    head: 'In use',
    text: outText,
    by: (t) => t.outOfUse ?? '',
    shown: (t) => (
      <StateWord shape={t.outOfUse === null ? 'disc' : 'bar'} tone={t.outOfUse === null ? 'good' : 'calm'}>
        {outText(t)}
      </StateWord>
    ),
  };
  return {
    places: [name, type, about('Stands within'), state],
    instruments: [name, type, about('Accuracy'), { id: 'checked', head: 'Last check', text: (t) => t.checked ?? '' }, state],
  };
}
