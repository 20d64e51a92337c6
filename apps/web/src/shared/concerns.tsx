import type { ConcernView } from '@bakehouse/contracts';
import { concernText, type LeavingTrouble } from '@bakehouse/records';
import type { Warned } from '@bakehouse/views';
import { Link } from 'wouter';
import { office } from './office-paths';
import { useTabletState } from './tablet-context';
import { dayTime } from './trace/words';
import { StateWord, type Shape } from '../ui';

interface Props {
  readonly concerns: readonly ConcernView[];
  readonly lot: string;
  /** Names of lots that are on the screen: the next lot on the way is named where it is one of them. */
  readonly names?: ReadonlyMap<string, string>;
}

/** That a lot is on hold, and everything that speaks against it: what, since when, and with which lot it came. Nothing where nothing does. */
export function Concerns({ concerns, lot, names }: Props) {
  const {
    site: { zone },
  } = useTabletState();
  if (concerns.length === 0) return null;
  return (
    <>
      <OnHold />
      <ul className="concerns">
        {concerns.map((c) => (
          <li key={c.id}>
            {concernText(c)}, since {dayTime(c.since, zone)}
            {c.from === lot ? null : (
              <>
                {' · '}
                {c.certain ? 'came with' : 'possibly came with'} <Link href={office.lot(c.from)}>{c.fromName}</Link>
                <By by={c.by} from={c.from} names={names} />
              </>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}

function By({ by, from, names }: Pick<ConcernView, 'by' | 'from'> & { readonly names: Props['names'] }) {
  const name = by === null || by === from ? undefined : names?.get(by);
  return name === undefined ? null : <>, by {name}</>;
}

/** The word and shape of *on hold*, the same everywhere. */
export function OnHold() {
  return (
    <StateWord shape="gate" tone="bad">
      on hold
    </StateWord>
  );
}

/** That another lot of the same code and material is on hold: this one may be of one lot of the supplier's with it. */
export function AlikeHeld() {
  return (
    <StateWord shape="diamond" tone="ask">
      same code as a lot on hold
    </StateWord>
  );
}

/** That nothing of a lot is left, since all of it was destroyed by a signed decision. */
export function Destroyed() {
  return (
    <StateWord shape="empty" tone="calm">
      destroyed: nothing of it is left
    </StateWord>
  );
}

/** What speaks against using a lot, and what only asks for a look. */
type Said = LeavingTrouble | Warned;
const warnings: readonly Said[] = ['past-best-before', 'still-to-read'] satisfies readonly Warned[];
export const onlyWarns = (said: Said): boolean => warnings.includes(said);

const troubles: Readonly<Record<Said, { readonly shape: Shape; readonly text: string }>> = {
  'held-lot-used': { shape: 'gate', text: 'on hold' },
  'refused-lot-used': { shape: 'diamond', text: 'refused' },
  'expired-lot-used': { shape: 'diamond', text: 'past its use-by date' },
  'past-life-used': { shape: 'diamond', text: 'past its life' },
  'past-best-before': { shape: 'diamond', text: 'past its best-before date' },
  'still-to-read': { shape: 'diamond', text: 'its critical reading is still to be taken' },
  'not-released': { shape: 'diamond', text: 'not released' },
};

export const troubleText = (trouble: Said): string => troubles[trouble].text;
export const troubleShape = (trouble: Said): Shape => troubles[trouble].shape;

/** Why a lot should not be used, where it is offered: before it is. */
export function TroubleWord({ trouble }: { readonly trouble: Said | null }) {
  if (trouble === null) return null;
  return (
    <StateWord shape={troubles[trouble].shape} tone={onlyWarns(trouble) ? 'ask' : 'bad'}>
      {troubles[trouble].text}
    </StateWord>
  );
}
