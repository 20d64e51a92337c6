import { dayBounds, daysAfter } from '@bakehouse/kernel';
import { toAskAbout, type OldOnHand, type ProductOnHand } from '@bakehouse/views';
import { useMemo, useState } from 'react';
import { dayText, whole } from '../../shared/format';
import { paths } from '../../shared/night/paths';
import type { Night } from '../../shared/night/use-night';
import { useAct } from '../../shared/use-act';
import { Button, Field, LinkButton, NumberPad, Section, Sheet } from '../../ui';
import { LotState } from './left';

const shownFirst = 8;

/** Old bread is no stock until somebody has looked: counted, or thrown away. */
export function OldBread({ night, products }: { readonly night: Night; readonly products: readonly ProductOnHand[] }) {
  const { lookup, day } = night;
  const { zone, dayStarts } = night.state.site;
  const [gone, setGone] = useState<OldOnHand>();
  const [all, setAll] = useState(false);
  const old = useMemo(
    () => toAskAbout(lookup, products, { day, from: dayBounds(day, zone, dayStarts).from, weekBefore: daysAfter(day, -7) }),
    [lookup, products, day, zone, dayStarts],
  );
  if (old.length === 0) return null;
  return (
    <Section title={`Old, or came back: is it there? ${whole(old.length)}`}>
      <p className="hint">
        By the records these are here, and they are past their date, of a week ago, or came back. Count what is there, or say that it was
        thrown away.
      </p>
      <ul className="rows">
        {(all ? old : old.slice(0, shownFirst)).map((o) => (
          <li key={o.lot.id} className="row">
            <span className="row-main">
              <strong>{o.name}</strong> {o.lot.code}, of {dayText(o.lot.bakedOn)}
              {o.cameBack ? ' · came back' : ''} · {o.lot.left === null ? 'number not known' : `${whole(o.lot.left)} by the records`}
            </span>
            <LotState lot={o.lot} />
            <LinkButton to={paths.countLot(o.lot.id)}>
              <span className="unseen">
                {o.name}, {o.lot.code}:{' '}
              </span>
              Count
            </LinkButton>
            <Button needs="record" label={`${o.name}, ${o.lot.code}: thrown away`} onClick={() => setGone(o)}>
              Thrown away
            </Button>
          </li>
        ))}
      </ul>
      {all || old.length <= shownFirst ? null : (
        <div className="buttons">
          <Button look="quiet" onClick={() => setAll(true)}>
            Show all {whole(old.length)}
          </Button>
        </div>
      )}
      {gone ? <ThrownAway of={gone} onClose={() => setGone(undefined)} /> : null}
    </Section>
  );
}

function ThrownAway({ of: { name, lot }, onClose }: { readonly of: OldOnHand; readonly onClose: () => void }) {
  const [pieces, setPieces] = useState(lot.left !== null && lot.left > 0 ? String(lot.left) : '');
  const [note, setNote] = useState('');
  const { act, busy, trouble } = useAct();
  const save = async (): Promise<void> => {
    const line = { lots: [lot.id], quantity: { figure: pieces, unit: 'piece' as const }, how: 'counted' as const };
    const done = await act({
      ...{ kind: 'sent-out', payload: { channel: 'waste', customer: null, unattended: false, until: null, lines: [line] } },
      ...(note.trim() === '' ? {} : { words: { note: note.trim() } }),
    });
    if (done) onClose();
  };
  return (
    <Sheet title={`${name}, ${lot.code}: thrown away`} onClose={onClose}>
      {trouble}
      <NumberPad label="How many" value={pieces} decimals={false} maxDigits={5} onChange={setPieces} onEnter={() => void save()} />
      <Field label="A few words, if you like" value={note} onChange={setNote} maxLength={400} />
      <div className="buttons">
        <Button look="go" disabled={busy || pieces === '' || Number(pieces) === 0} onClick={() => void save()}>
          Record it
        </Button>
      </div>
    </Sheet>
  );
}
