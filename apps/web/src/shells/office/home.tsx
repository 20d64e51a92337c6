import { OpenThings } from '../../features/house/open-things';
import { OpenRecalls } from '../../features/recall/recalls';
import { FindBox } from '../../features/trace/find-box';
import { Caution, Screen } from '../../shared/ui';

/** The office: a lot to look for on top, then what is open. */
export function Home() {
  return (
    <Screen title="Office">
      <FindBox focus />
      <OpenRecalls />
      <OpenThings />
      <Caution />
    </Screen>
  );
}
