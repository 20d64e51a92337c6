import type { BatchView } from '@bakehouse/views';
import { StateWord } from '../../shared/ui';

/** Whether a batch may leave, in a shape and a word. */
export function BatchState({ b }: { readonly b: BatchView }) {
  switch (b.release.state) {
    case 'released':
      return b.release.since.length > 0 ? (
        <StateWord shape="triangle" tone="bad">
          left, and something was found since
        </StateWord>
      ) : (
        <StateWord shape="disc" tone="good">
          {b.release.way === 'by-rule' ? 'free to leave' : 'let go by signature'}
        </StateWord>
      );
    case 'may-go':
      return (
        <StateWord shape="ring" tone="calm">
          nothing open
        </StateWord>
      );
    case 'waits':
      return (
        <StateWord shape="triangle" tone="bad">
          waits
        </StateWord>
      );
  }
}
