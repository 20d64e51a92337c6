import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { holdsRelease } from './holds-release.js';
import type { Row } from '../base/state.js';

const at = (minute: number): string => `2026-11-25T05:${String(minute).padStart(2, '0')}:00.000Z`;
const deviation = (of: Partial<Row<'deviation'>> = {}): Row<'deviation'> => ({
  id: 'd',
  subjectType: 'load',
  subject: 'load',
  type: 'limit',
  class: 'ccp',
  summary: 'core',
  holds: true,
  point: 'p',
  lot: null,
  doneBy: null,
  at: at(12),
  ...of,
});
const action = (minute: number, of: Partial<Row<'correctiveAction'>> = {}): Row<'correctiveAction'> => ({
  id: `a${minute}`,
  deviation: 'd',
  subject: 'load',
  action: null,
  type: 'back-in-the-oven',
  at: at(minute),
  doneBy: null,
  ...of,
});
const reading = (minute: number, verdict: Row<'reading'>['verdict'], of: Partial<Row<'reading'>> = {}): Row<'reading'> => ({
  id: `r${minute}`,
  subjectType: 'load',
  subject: 'load',
  point: 'p',
  pointKey: 'core',
  measured: 'core',
  parameter: 'core',
  figure: '94.4',
  unit: 'degC',
  milli: 94_400,
  yes: null,
  seconds: null,
  verdict,
  class: 'ccp',
  judgedBy: null,
  instrument: null,
  halfWidthMilli: 0,
  rule: 1,
  at: at(minute),
  doneBy: null,
  corrected: false,
  ...of,
});
const disposition = (of: Partial<Row<'disposition'>>): Row<'disposition'> => ({
  id: 'x',
  deviation: 'd',
  subject: 'load',
  disposition: 'accepted-for-use',
  pieces: null,
  mg: null,
  saw: [],
  findings: [],
  covers: 'what-came-of-it',
  at: at(30),
  ...of,
});
const first = reading(12, 'outside');

describe('a deviation places food on hold', () => {
  it.each<[string, boolean, Parameters<typeof holdsRelease>]>([
    ['on its own', true, [deviation(), [], [first], []]],
    ['not when it never held', false, [deviation({ holds: false }), [], [first], []]],
    ['after something was done, with no new reading', true, [deviation(), [action(13)], [first], []]],
    ['after a new reading, with nothing done', true, [deviation(), [], [first, reading(20, 'within')], []]],
    ['not after something was done and a reading within', false, [deviation(), [action(13)], [first, reading(20, 'within')], []]],
    ['when the reading came before what was done', true, [deviation(), [action(25)], [first, reading(20, 'within')], []]],
    [
      'when a later reading is outside again',
      true,
      [deviation(), [action(13)], [first, reading(20, 'within'), reading(25, 'outside')], []],
    ],
    ['when the last reading is unsure', true, [deviation(), [action(13)], [first, reading(20, 'within'), reading(25, 'unsure')], []]],
    [
      'not for a slip of the finger after a good reading',
      false,
      [deviation(), [action(13)], [first, reading(20, 'within'), reading(25, 'not-believable')], []],
    ],
    [
      'not when something more was done after the good reading',
      false,
      [deviation(), [action(13), action(50)], [first, reading(20, 'within')], []],
    ],
    ['when somebody was only told', true, [deviation(), [action(13, { type: 'told-somebody' })], [first, reading(20, 'within')], []]],
    [
      'when what was done was about another deviation',
      true,
      [deviation(), [action(13, { deviation: 'other' })], [first, reading(20, 'within')], []],
    ],
    ['when the reading is of another point', true, [deviation(), [action(13)], [first, reading(20, 'within', { point: 'q' })], []]],
    ['when the reading is about another load', true, [deviation(), [action(13)], [first, reading(20, 'within', { subject: 'other' })], []]],
    [
      'when the reading that opened it was corrected to within',
      true,
      [deviation(), [action(12)], [reading(12, 'within', { corrected: true })], []],
    ],
    ['not once it is decided that the whole is used', false, [deviation(), [], [first], [disposition({})]]],
    ['when only part of it is to be used', true, [deviation(), [], [first], [disposition({ pieces: 6 })]]],
    ['when part of it was destroyed', true, [deviation(), [], [first], [disposition({ disposition: 'destroyed', pieces: 6 })]]],
    ['for a missed reading', true, [deviation({ type: 'not-taken' }), [], [], []]],
    ['not for a missed reading that was taken after all', false, [deviation({ type: 'not-taken' }), [], [reading(20, 'within')], []]],
    [
      'for a held lot that was used, whatever was read',
      true,
      [deviation({ type: 'held-lot-used', point: null }), [action(13)], [reading(20, 'within')], []],
    ],
    ['also when found after release', true, [deviation({ type: 'found-after-release' }), [action(13)], [first], []]],
  ])('%s: %s', (_case, holds, args) => {
    expect(holdsRelease(...args)).toBe(holds);
  });

  it('whatever the order that the records come in', () => {
    const readings = [first, reading(20, 'outside'), reading(25, 'within'), reading(30, 'not-believable')];
    const actions = [action(13), action(21), action(33)];
    fc.assert(
      fc.property(
        fc.shuffledSubarray(readings, { minLength: 4 }),
        fc.shuffledSubarray(actions, { minLength: 3 }),
        (r, a) => !holdsRelease(deviation(), a, r, []),
      ),
    );
  });
});
