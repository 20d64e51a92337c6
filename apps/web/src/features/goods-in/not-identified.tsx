import type { OpenThings } from '@bakehouse/contracts';
import { useState } from 'react';
import { whole } from '../../shared/format';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { RowButton, Section, StateWord } from '../../ui';
import { NameLot } from './name-lot';

type One = OpenThings['notIdentified'][number];

/** Lots that are not identified, those first that were used without a code. */
export function NotIdentified({ lots, onDone }: { readonly lots: readonly One[]; readonly onDone: () => void }) {
  const {
    site: { zone },
  } = useTabletState();
  const [naming, setNaming] = useState<One>();
  if (lots.length === 0) return null;
  return (
    <Section title={`Lots not identified: ${whole(lots.length)}`}>
      <ul className="rows">
        {lots.map((l) => (
          <li key={l.lot}>
            <RowButton needs="record" onClick={() => setNaming(l)}>
              <StateWord shape="diamond" tone="ask">
                {l.used ? 'used, not identified' : 'not identified'}
              </StateWord>
              <span className="row-main">
                <strong>{l.name}</strong>
              </span>
              <span className="row-side">{dayTime(l.at, zone)}</span>
            </RowButton>
          </li>
        ))}
      </ul>
      {naming ? (
        <NameLot
          lot={naming.lot}
          name={naming.name}
          onClose={() => setNaming(undefined)}
          onDone={() => {
            setNaming(undefined);
            onDone();
          }}
        />
      ) : null}
    </Section>
  );
}
