import { useEffect } from 'react';
import { later } from '../../ui/later';
import { AtDevice } from '../sign-on/at-device';
import { AtTheirSite } from '../sign-on/at-site';

const load = () => import('./inside').then((m) => m.Inside);
const Inside = later(load);

/** The table's tablet: names to tap first, then the night, which comes while they are looked at. */
export function Table() {
  useEffect(() => void load(), []);
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
