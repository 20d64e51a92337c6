import { daysAfter } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { timersOf, type TimerView } from '@bakehouse/views';
import { useMemo } from 'react';
import { useNight } from '../../../shared/night/use-night';

/** All that is in an oven, prover or retarder, what is due first on top. What rests overnight for tomorrow's bake, or was begun for yesterday's, runs on too. */
export function useTimers(): TimerView[] {
  const { lookup, day } = useNight();
  return useMemo(
    () =>
      [daysAfter(day, -1), day, daysAfter(day, 1)]
        .flatMap((d) => timersOf(lookup, d))
        .sort((a, b) => ((a.due ?? '9') < (b.due ?? '9') ? -1 : 1)),
    [lookup, day],
  );
}

/** The place that it is in, or what is done with it there. */
export const timerPlace = ({ placeName, step }: TimerView): string => placeName ?? (step === 'bake' ? 'oven' : phrase(`stage.${step}`));
