import { daysAfter, siteDay } from '@bakehouse/kernel';
import { useState } from 'react';
import { dayText } from '../../shared/format';
import { useNow, useTable, useTabletState } from '../../shared/tablet-context';
import { Choice, Sheet, StateWord } from '../../ui';

/** Which day's bake this is. It does not turn over by itself at midnight: a night's work belongs to one bake. */
export function BakeDay() {
  const { tablet } = useTable();
  const { day, site } = useTabletState();
  const today = siteDay(useNow(30_000), site);
  const [open, setOpen] = useState(false);
  const away = [
    [daysAfter(today, -1), 'yesterday'],
    [daysAfter(today, 1), 'tomorrow'],
  ].find(([d]) => d === day)?.[1];
  return (
    <>
      <button type="button" className="strip-where" onClick={() => setOpen(true)}>
        <strong>{site.name}</strong>
        <span>{dayText(day)}</span>
        <span className="unseen">Choose another day</span>
      </button>
      {day === today ? null : (
        <StateWord shape="diamond" tone="ask">
          {away ? `${away}’s bake` : 'not today'}
        </StateWord>
      )}
      {open ? (
        <Sheet title="Whose bake is it?" onClose={() => setOpen(false)}>
          <Choice
            label="The bake of"
            value={day}
            onChange={(d) => {
              setOpen(false);
              void tablet.choose(d);
            }}
            options={[-1, 0, 1]
              .map((n) => daysAfter(today, n))
              .map((d, i) => ({ value: d, text: `${dayText(d)}, ${['yesterday', 'today', 'tomorrow'][i] ?? ''}` }))}
          />
        </Sheet>
      ) : null}
    </>
  );
}
