import { FindBox } from '../../features/trace/find-box';
import { OpenRecalls } from '../../features/recall/recalls';
import { Caution, Screen } from '../../shared/ui';

/** The office: a lot to look for on top, then what is open. */
export function Home() {
  return (
    <Screen title="Office">
      <FindBox focus />
      <OpenRecalls />
      <Caution />
    </Screen>
  );
}
