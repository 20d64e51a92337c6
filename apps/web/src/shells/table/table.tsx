import { AtDevice } from '../sign-on/at-device';
import { AtTheirSite } from '../sign-on/at-site';
import { Inside } from './inside';

/** The table's tablet: names to tap first, then the night. */
export function Table() {
  return (
    <AtDevice>
      {(at) => (
        <AtTheirSite {...at}>
          <Inside />
        </AtTheirSite>
      )}
    </AtDevice>
  );
}
