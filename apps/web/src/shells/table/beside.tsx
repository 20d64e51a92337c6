import './screens';
import { KeepReady } from '../../features/inspection/keep-ready';
import { GoesOn } from '../../features/inspection/goes-on';
import { Rings } from '../../features/night/ring/rings';

/** What a tablet does while somebody works on it: it rings for its timers, keeps the officer's copy ready, and sees that the records go on from those that it saw. */
export function Beside() {
  return (
    <>
      <Rings />
      <GoesOn />
      <KeepReady />
    </>
  );
}
