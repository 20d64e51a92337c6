import { ifInstrumentOut } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import type { NewEntry } from '@bakehouse/records';
import { HeldPlaces } from '../../shared/held-places';
import { paths } from '../../shared/night/paths';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Empty, For, LinkButton, Notice, Screen, Section } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { useProvenAct } from '../../shared/use-proven-act';

/** Something of the site that can go out of use. */
export interface Thing {
  readonly id: string;
  readonly name: string;
  readonly type: string;
  /** Where it stands, or how near its readings are. */
  readonly about: string;
  readonly checked: string | null;
  readonly since: string;
  readonly outOfUse: string | null;
  readonly kind: 'place-out-of-use' | 'instrument-out-of-use';
}

interface Props {
  readonly thing: Thing | undefined;
  /** Whether it is known by now what there is. */
  readonly known: boolean;
  readonly onDone: () => Promise<void>;
}

const back = { to: office.places, text: 'Places and probes' };

/** A place or an instrument: since when it is in use, and how it goes out of use. */
export function ThingPage({ thing, known, onDone }: Props) {
  const {
    site: { zone },
  } = useTabletState();
  if (!thing)
    return (
      <Screen title={known ? 'No such place or instrument' : 'One moment…'} back={back}>
        {known ? <Empty>It is not on the list of this site.</Empty> : null}
      </Screen>
    );
  return (
    <Screen title={thing.name} back={back}>
      <p>{[thing.type, thing.about, thing.checked].filter((s) => s !== null && s !== '').join(', ')}</p>
      <p>
        In use since {dayTime(thing.since, zone)}
        {thing.outOfUse === null ? '' : `, out of use since ${dayTime(thing.outOfUse, zone)}`}.
      </p>
      {thing.kind === 'place-out-of-use' ? (
        <Section title="On hold">
          <HeldPlaces place={thing.id} onDone={() => void onDone()} />
          <div className="buttons">
            <LinkButton to={paths.holdThisPlace(thing.id)}>Put it on hold</LinkButton>
          </div>
        </Section>
      ) : null}
      {thing.outOfUse === null ? (
        <For needs="manage.site">
          <OutOfUse thing={thing} onDone={onDone} />
        </For>
      ) : null}
    </Screen>
  );
}

/** What follows is said before it is so. */
function OutOfUse({ thing, onDone }: { readonly thing: Thing; readonly onDone: () => Promise<void> }) {
  const { act, busy, trouble } = useProvenAct();
  const entry: NewEntry =
    thing.kind === 'place-out-of-use'
      ? { kind: thing.kind, payload: { place: thing.id } }
      : { kind: thing.kind, payload: { instrument: thing.id } };
  const out = async (): Promise<void> => {
    if (await act(entry)) await onDone();
  };
  return (
    <Section title="Out of use">
      {trouble}
      <p>Out of use, it is not offered any more. What was done there and measured with it stays readable.</p>
      {thing.kind === 'instrument-out-of-use' ? <IfOut instrument={thing.id} /> : null}
      <div className="buttons">
        <Button look="grave" disabled={busy} onClick={() => void out()}>
          Out of use from now on
        </Button>
      </div>
    </Section>
  );
}

/** The readings since its last check cannot be trusted once it is gone, unless somebody checks it first. */
function IfOut({ instrument }: { readonly instrument: string }) {
  const { site } = useTabletState();
  const loaded = useLoaded('/sites/{site}/instruments/{instrument}/if-out', ifInstrumentOut, {
    params: { path: { site: site.id, instrument } },
  });
  return (
    <Shown of={loaded}>
      {({ readings, lastCheck, batches }) =>
        readings === 0 ? null : (
          <Notice tone="bad" title="Check it first: it was not checked since it was read with">
            <p>
              {countText(readings, 'reading')} since{' '}
              {lastCheck === null ? 'it came into use' : `its last check, ${dayTime(lastCheck, site.zone)},`} will be in doubt if it goes
              out of use unchecked: each is to be confirmed before the food leaves by rule.
            </p>
            {batches.length === 0 ? null : (
              <>
                <p>Food that may still be in the house and rests on them:</p>
                <ul>
                  {batches.map((b) => (
                    <li key={b.id}>
                      {b.name}, {b.code}
                    </li>
                  ))}
                </ul>
              </>
            )}
          </Notice>
        )
      }
    </Shown>
  );
}
