import { openThings } from '@bakehouse/contracts';
import { NotIdentified } from '../../features/goods-in/not-identified';
import { HoldsAndSetAside, OpenDeviations } from '../../features/house/open-things';
import { OpenRecalls } from '../../features/recall/recalls';
import { SetupLink, SetupOnHome } from '../../features/setup/on-home';
import { ProductsNotOnTicket } from '../../shared/not-on-ticket';
import { useTabletState } from '../../shared/tablet-context';
import { Caution, Empty, Screen, Section } from '../../ui';
import { LoadingText, useLoaded } from '../../shared/use-loaded';
import { useUpToDate } from '../../shared/use-up-to-date';

/** The office: what waits for somebody. */
export function Home() {
  const { site } = useTabletState();
  const { reply, reload } = useLoaded('/sites/{site}/open', openThings, { params: { path: { site: site.id } } });
  const again = (): void => void reload();
  useUpToDate(reload);
  return (
    <Screen title="Office" wide>
      <SetupOnHome />
      <OpenRecalls />
      <ProductsNotOnTicket />
      <OpenDeviations />
      {reply?.as === 'ok' ? (
        <>
          <NotIdentified lots={reply.value.notIdentified} onDone={again} />
          <HoldsAndSetAside of={reply.value} onDone={again} />
        </>
      ) : null}
      {reply ? null : (
        <Section title="Food on hold">
          <LoadingText what="what is on hold and what waits for a code" />
        </Section>
      )}
      {reply && reply.as !== 'ok' ? <Empty>What is on hold and what waits for a code can be seen when the network is back.</Empty> : null}
      <SetupLink />
      <Caution />
    </Screen>
  );
}
