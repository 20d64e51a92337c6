import { instrumentList, placeList } from '@bakehouse/contracts';
import { quantityText } from '@bakehouse/kernel';
import { phrase, type Row } from '@bakehouse/records';
import { useState, type ReactNode } from 'react';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Empty, Screen, Section, StateWord } from '../../ui';
import { SetUpLink } from '../../shared/set-up-link';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { CatalogueTabs } from './catalogue-tabs';
import { NewInstrument, NewPlace } from './new-place';
import { OutSheet, type Thing } from './out-sheet';

/** Equipment, stations and stores of this site, and what it measures with. */
export function Places() {
  const { site } = useTabletState();
  const places = useLoaded('/sites/{site}/places', placeList, { params: { path: { site: site.id } } });
  const instruments = useLoaded('/sites/{site}/instruments', instrumentList, { params: { path: { site: site.id } } });
  const [open, setOpen] = useState<'place' | 'instrument' | Thing>();
  const close = (): void => setOpen(undefined);
  const done = async (): Promise<void> => {
    await Promise.all([places.reload(), instruments.reload()]);
    close();
  };
  return (
    <Screen title={`Places and probes at ${site.name}`} back={{ to: office.home, text: 'Office' }}>
      <CatalogueTabs here={office.places} />
      <Section title="Equipment, stations and stores">
        <Shown of={places}>
          {(list) => (
            <Things
              none={
                <>
                  Nothing is in use here yet. Begin with where dough is mixed and what bakes. <SetUpLink />
                </>
              }
              things={list.map((p) => ({
                ...p,
                kind: 'place-out-of-use' as const,
                about: [phrase(`place.${p.type}`), ...list.flatMap((q) => (q.id === p.within ? [`in ${q.name}`] : []))].join(', '),
              }))}
              onOpen={setOpen}
            />
          )}
        </Shown>
        <div className="buttons">
          <Button onClick={() => setOpen('place')}>One more place</Button>
        </div>
      </Section>
      <Section title="What is measured with">
        <Shown of={instruments}>
          {(list) => (
            <Things
              none="Nothing to measure with is in use here yet. Without a probe no temperature can be read."
              things={list.map((i) => ({ ...i, kind: 'instrument-out-of-use' as const, about: aboutInstrument(i, site.zone) }))}
              onOpen={setOpen}
            />
          )}
        </Shown>
        <div className="buttons">
          <Button onClick={() => setOpen('instrument')}>One more instrument</Button>
        </div>
      </Section>
      {open === 'place' ? <NewPlace onDone={() => void done()} onClose={close} /> : null}
      {open === 'instrument' ? <NewInstrument onDone={() => void done()} onClose={close} /> : null}
      {typeof open === 'object' ? <OutSheet thing={open} onDone={() => void done()} onClose={close} /> : null}
    </Screen>
  );
}

function aboutInstrument(
  i: {
    readonly type: Row<'instrument'>['type'];
    readonly unit: string;
    readonly halfWidthMilli: number;
    readonly lastCheck: { readonly at: string; readonly passed: boolean } | null;
  },
  zone: string,
): string {
  const check =
    i.lastCheck === null ? 'never checked' : `last check ${dayTime(i.lastCheck.at, zone)}, ${i.lastCheck.passed ? 'passed' : 'not passed'}`;
  return `${phrase(`instrument.${i.type}`)}, within ${quantityText(String(i.halfWidthMilli / 1000), i.unit)}, ${check}`;
}

function Things({
  none,
  things,
  onOpen,
}: {
  readonly none: ReactNode;
  readonly things: readonly (Thing & { readonly outOfUse: string | null })[];
  readonly onOpen: (thing: Thing) => void;
}) {
  const { site } = useTabletState();
  if (things.length === 0) return <Empty>{none}</Empty>;
  return (
    <ul className="rows">
      {things.map((t) => (
        <li key={t.id}>
          <button type="button" className="row" disabled={t.outOfUse !== null} onClick={() => onOpen(t)}>
            <span className="row-main">
              <strong>{t.name}</strong> {t.about}
            </span>
            {t.outOfUse === null ? null : (
              <StateWord shape="bar" tone="calm">{`out of use since ${dayTime(t.outOfUse, site.zone)}`}</StateWord>
            )}
          </button>
        </li>
      ))}
    </ul>
  );
}
