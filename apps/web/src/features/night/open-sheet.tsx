import { siteDay } from '@bakehouse/kernel';
import type { NewEntry, OutcomeOf } from '@bakehouse/records';
import { codeOf, leftRangeIn, saidOf } from '@bakehouse/views';
import { TroubleWord } from '../../shared/concerns';
import { dayText, leftByRecords } from '../../shared/format';
import { Button, Empty, Sheet, Tile, Tiles } from '../../ui';
import { stationsOf } from '../../shared/in-force';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { codeText } from '../../shared/night/code-text';
import { lotsToOpen } from '../../shared/night/lots';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';

interface Props {
  readonly station: string | null;
  readonly material: string;
  readonly name: string;
  /** The lot that ran out, where one did. */
  readonly emptied: string | null;
  readonly onClose: () => void;
  readonly onOpened: (found: OutcomeOf<'lot-opened'>) => void;
}

/** The second of two taps: which one is open now. The first one is emptied at the same moment. */
export function OpenSheet({ station, material, name, emptied, onClose, onOpened }: Props) {
  const { lookup, state } = useNight();
  const { act, busy, trouble } = useAct();
  const { unlessTroubled, asked } = useAllTheSame();
  const at = station ?? stationsOf(state.snapshot)[0]?.id;
  const lots = lotsToOpen(lookup, material);
  const open = async (lot: string | null): Promise<void> => {
    if (at === undefined) return;
    const ranOut: NewEntry[] = emptied === null ? [] : [{ kind: 'lot-emptied', payload: { station: at, lot: emptied, left: null } }];
    const done = await act({ kind: 'lot-opened', payload: { station: at, material, lot, beside: false } }, ranOut);
    if (done) onOpened(done.outcome);
  };
  return (
    <Sheet title={emptied === null ? `Open ${name}` : `${name} ran out: which one now?`} onClose={onClose}>
      {trouble}
      {asked}
      {lots.length === 0 ? (
        <Empty>No other lot of it is on record here.</Empty>
      ) : (
        <Tiles label="Lots">
          {lots.map((l) => (
            <Tile
              key={l.id}
              disabled={busy}
              onClick={() => unlessTroubled([l.id], () => void open(l.id))}
              mark={<TroubleWord trouble={saidOf(lookup, l.id)} />}
              title={codeText(codeOf(lookup, l.id))}
              detail={`${l.name} · came ${dayText(siteDay(l.at, state.site))}${leftByRecords(leftRangeIn(lookup, l.id))}${l.useBy === null ? '' : ` · use by ${dayText(l.useBy)}`}`}
            />
          ))}
        </Tiles>
      )}
      {at === undefined ? (
        <Empty>No station is in use here yet; one is set up in the office.</Empty>
      ) : (
        <div className="buttons">
          <Button disabled={busy} onClick={() => void open(null)}>
            Lot not known
          </Button>
        </div>
      )}
    </Sheet>
  );
}
