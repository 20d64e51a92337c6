import type { BrokenHead } from '@bakehouse/offline';
import { useTable, useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Notice } from '../../ui';
import { useGoesOn } from './use-goes-on';

const because: Readonly<Record<BrokenHead['why'], string>> = {
  shorter: 'There are fewer records now than this tablet saw then.',
  forked: 'Records that this tablet saw then were changed, left out or put in another order.',
  'another-key': 'They are signed with another key than those were.',
  'not-signed': 'They are not signed as those were.',
  'not-proven': 'The service does not show that they go on from there.',
};

/** Says where the records do not go on from what this tablet saw. It stands in nobody's way: what is typed is kept and sent. */
export function GoesOn() {
  const { broken, goOnFrom } = useGoesOn();
  const { person } = useTable();
  const { site } = useTabletState();
  return broken.map((one) => (
    <Notice
      key={one.book}
      tone="bad"
      title={`The records of this house do not go on from what this tablet saw on ${dayTime(one.seen.at, site.zone)}: ask who looks after the service.`}
    >
      <p>
        {one.name}: {because[one.why]} This is to be expected where a backup was put back; what came after the backup is then missing.
        {one.told ? ' The administrator was told.' : ' The administrator will be told when the service can be reached.'}
      </p>
      <p>Go on recording: everything is kept and sent. Do not reset this tablet: what it saw is evidence.</p>
      {person.permissions.includes('manage.people') ? (
        <div className="buttons">
          <Button look="quiet" onClick={() => void goOnFrom(one)}>
            It is known why: go on from the records as they are now
          </Button>
        </div>
      ) : null}
    </Notice>
  ));
}
