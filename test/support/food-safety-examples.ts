import { expect } from '@jest/globals';
import { near, type Example } from './example.js';
import { profile } from './profiles.js';

/** Heat, cold and control points. */
export const foodSafetyExamples: readonly Example[] = [
  [
    'lethality',
    'exact integral of 10^((T−70)/7.5), by hand',
    { profile: profile([0, 60], [10, 80]), referenceCelsius: 70, zCelsius: 7.5 },
    { equivalentMinutes: near(35.011623, 5), logReduction: null, outsideMeasuredRange: null },
  ],
  [
    'lethality',
    'Channaiah et al. 2016: bun dough was measured from 55 to 61 °C',
    {
      profile: profile([0, 70], [2, 70]),
      referenceCelsius: 61,
      zCelsius: 6.58,
      dMinutes: 3.14,
      measuredFromCelsius: 55,
      measuredToCelsius: 61,
    },
    { logReduction: null, outsideMeasuredRange: true, reason: expect.stringContaining('Outside the measured range') },
  ],
  [
    'equivalent-hold',
    'UK guidance lists 45 min, rounded up',
    { referenceCelsius: 70, referenceMinutes: 2, zCelsius: 7.5, celsius: 60 },
    { minutes: near(43.0886938) },
  ],
  [
    'z-value',
    'Channaiah et al. 2017, muffin batter 10.4',
    {
      points: [
        { celsius: 55, dMinutes: 62.2 },
        { celsius: 58, dMinutes: 40.1 },
        { celsius: 61, dMinutes: 16.5 },
      ],
    },
    { zCelsius: near(10.41, 2), slope: expect.any(Number), r2: expect.any(Number) },
  ],
  [
    'cooling',
    'FDA Food Code 3-501.14(A): the second limit is six hours in all',
    { profile: profile([0, 57], [60, 21], [360, 5]), rule: 'us-cooked' },
    { verdict: 'pass', stages: [expect.objectContaining({ observedMinutes: 60 }), expect.objectContaining({ observedMinutes: 360 })] },
  ],
  [
    'cooling',
    'FDA Food Code 3-501.14(B), four hours exceeded by a second',
    { profile: profile([0, 22], [240 + 1 / 60, 5]), rule: 'us-from-ambient' },
    { verdict: 'fail' },
  ],
  [
    'cooling',
    'a site’s own stages',
    { profile: profile([0, 60], [90, 10]), rule: { stages: [{ toCelsius: 10, withinMinutes: 90 }] } },
    { verdict: 'pass', stages: [expect.objectContaining({ fromCelsius: null, observedMinutes: 90 })] },
  ],
  [
    'holding',
    'FDA Food Code 3-501.16: 5 °C is inside',
    { profile: profile([0, 5], [600, 5]), rule: 'cold-us' },
    { verdict: 'pass', longestMinutesOutside: 0 },
  ],
  [
    'holding',
    'FDA Food Code 3-501.16: 56.9 °C is outside',
    { profile: profile([0, 56.9], [10, 56.9]), rule: 'hot-us' },
    { verdict: 'fail', totalMinutesOutside: 10 },
  ],
  [
    'holding',
    'SI 2013/2996 Sch. 4: less than four hours, so not four',
    { profile: profile([0, 8.1], [240, 8.1]), rule: 'cold-england' },
    { verdict: 'fail', defenceCouldApply: false },
  ],
  [
    'holding',
    'SI 2013/2996 Sch. 4: less than two hours',
    { profile: profile([0, 62], [119, 62]), rule: 'hot-england' },
    { verdict: 'fail', defenceCouldApply: true, defenceConditions: expect.arrayContaining([expect.stringContaining('once only')]) },
  ],
  [
    'holding',
    'FDA Food Code 3-501.19(B)',
    { profile: profile([0, 5], [240, 24]), rule: 'four-hour' },
    { verdict: 'pass', minutesSinceStart: 240 },
  ],
  [
    'holding',
    'FDA Food Code 3-501.19(C): never above 21 °C',
    { profile: profile([0, 5], [100, 21.1]), rule: 'six-hour' },
    { verdict: 'fail' },
  ],
  [
    'temperature-control-needed',
    'FDA Food Code 1-201.10, table A',
    { ph: 4.6, waterActivity: 0.95, heatTreatedThenPackaged: true },
    { table: 'A', result: 'not-needed' },
  ],
  [
    'temperature-control-needed',
    'FDA Food Code 1-201.10, table B',
    { ph: 6.5, waterActivity: 0.97, heatTreatedThenPackaged: false },
    { table: 'B', result: 'assess', advice: 'treat as controlled until assessed' },
  ],
  [
    'ccp-decision',
    'Codex CXC 1-1969, text of 2022',
    { edition: '2022', answers: { Q1: 'No', Q2: 'Yes', Q3: 'No', Q4: 'Yes' } },
    { outcome: 'ccp', decidedBy: 'Q4' },
  ],
  [
    'ccp-decision',
    'Codex CXC 1-1969, text of 2022',
    { edition: 2022, answers: [false, true, true, true] },
    { outcome: 'later-step', decidedBy: 'Q3' },
  ],
  [
    'ccp-decision',
    'Codex CAC/RCP 1-1969 Rev. 4, diagram 2',
    { edition: 'CAC/RCP 1-1969 (2003)', answers: ['no', 'yes'] },
    { outcome: 'modify', decidedBy: 'Q1b' },
  ],
  [
    'guarded-verdict',
    '165 °F is 73.89 °C, by definition',
    { value: 73.8, unit: '°C', limit: { min: 165, unit: '°F' }, halfWidth: 0 },
    { verdict: 'outside', valueInLimitUnit: '164.84' },
  ],
  [
    'guarded-verdict',
    '8.0 meets a limit of 8; half a degree of doubt leaves it open',
    { value: 8, unit: 'celsius', limit: { max: 8, unit: 'C' }, halfWidth: 0.5 },
    { verdict: 'unsure' },
  ],
  [
    'probe-reference',
    'IAPWS-IF97 table 36, 0.1 MPa',
    { pressurePascal: 100_000 },
    { boilingCelsius: near(99.605919), iceCelsius: 0, assumed: 'pressure' },
  ],
  [
    'probe-reference',
    'ICAO standard atmosphere, 1500 m',
    { altitudeMetres: 1500 },
    { boilingCelsius: near(94.98, 2), assumed: 'altitude' },
  ],
  [
    'probe-check',
    'a window of 99 to 101 °C would fail this sound probe at 300 m',
    { kind: 'boiling', readCelsius: 98.9, toleranceCelsius: 1, altitudeMetres: 300 },
    { verdict: 'pass' },
  ],
  [
    'probe-check',
    'regulators’ guidance: ice 0 ± 1 °C',
    { kind: 'ice', readCelsius: -1.1, toleranceCelsius: 1 },
    { verdict: 'fail', offsetCelsius: -1.1 },
  ],
];
