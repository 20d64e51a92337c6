import { whereaboutsOf } from '@bakehouse/views';
import { useMemo } from 'react';
import { placesAsSetUp } from '../../shared/in-force';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';
import { StillLoading } from '../../shared/still-loading';
import { Caution, LinkButton, Screen } from '../../ui';
import { Deviations } from './deviation-row';
import { DueNext } from './due-next';
import { FoundAfterRelease } from './found-since';
import { Finished } from './house/finished';
import { HeldFood } from './held-food';
import { House } from './house/house';
import { MoreLoaded } from './more-loaded';

/** Today's bake: what is on hold and what is due first, then the house from the table to the door, what is finished folded below. */
export function Today() {
  const night = useNight();
  const { view, state } = night;
  const where = useMemo(() => whereaboutsOf(view, placesAsSetUp(state.snapshot, ['oven', 'deck'])), [view, state.snapshot]);
  return (
    <Screen
      title="Today’s bake"
      actions={
        <>
          <LinkButton to={paths.start}>Start a mix</LinkButton>
          <LinkButton to={paths.loadNew}>Into the oven</LinkButton>
        </>
      }
    >
      <StillLoading />
      <div className="first">
        <div className="first-held">
          <FoundAfterRelease night={night} />
          <Deviations title="On hold" list={view.deviations.filter((d) => d.state === 'holds')} night={night} />
          <HeldFood night={night} />
          <MoreLoaded runs={where.moreLoaded} />
        </div>
        <div className="first-due">
          <DueNext night={night} />
        </div>
      </div>
      <House where={where} night={night} />
      <Finished where={where} night={night} />
      <Deviations title="Open deviations" list={view.deviations.filter((d) => d.state === 'open')} night={night} />
      <div className="buttons">
        <LinkButton to={paths.report('site', state.site.id)}>Report a deviation</LinkButton>
        <LinkButton to={paths.holdPlace}>Put a place on hold</LinkButton>
        <LinkButton to={paths.cleanDown}>Cleaned down</LinkButton>
        <LinkButton to={paths.probeCheck}>Check a thermometer</LinkButton>
        <LinkButton to={paths.sheet}>The day’s sheet, to print</LinkButton>
      </div>
      <Caution />
    </Screen>
  );
}
