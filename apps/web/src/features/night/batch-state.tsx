import type { BatchView } from '@bakehouse/views';
import { Destroyed, OnHold } from '../../shared/concerns';
import { whenText } from '../../shared/format';
import { useNight } from '../../shared/night/use-night';
import { StateWord } from '../../ui';

/** Whether a batch is released, in a shape and a word. */
export function BatchState({ b }: { readonly b: BatchView }) {
  const { zone, now } = useNight();
  switch (b.release.state) {
    case 'released':
      return b.release.since.length > 0 ? (
        <StateWord shape="diamond" tone="bad">
          released, and something was found since
        </StateWord>
      ) : (
        <StateWord shape="disc" tone="good">
          {`Released ${whenText(b.release.at, now, zone)}, ${b.release.way === 'by-rule' ? 'by rule' : 'by exception'}`}
        </StateWord>
      );
    case 'may-go':
      return (
        <StateWord shape="ring" tone="calm">
          Ready to release
        </StateWord>
      );
    case 'destroyed':
      return <Destroyed />;
    case 'on-hold':
      return <OnHold />;
    case 'waits':
      return (
        <StateWord shape="diamond" tone="bad">
          waits
        </StateWord>
      );
  }
}
