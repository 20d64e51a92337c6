import { describe, expect, it } from '@jest/globals';
import type { Change, Row } from '../base/state.js';
import { subjectType, namesFood } from '../rows/control.js';
import { touchedBy } from './clear.js';
import { watchedBy } from './watched.js';

const of = '00000000-0000-7000-8000-000000000001';
const taken = (about: Row<'reading'>['subjectType']): Change => ({
  in: 'reading',
  id: '00000000-0000-7000-8000-000000000002',
  row: {
    subjectType: about,
    subject: of,
    point: null,
    pointKey: null,
    measured: 'air',
    parameter: 'Temperature',
    figure: '4.1',
    unit: 'degC',
    milli: 4_100,
    yes: null,
    seconds: null,
    verdict: 'no-limit',
    class: null,
    judgedBy: null,
    instrument: null,
    halfWidthMilli: 0,
    rule: 1,
    at: '2026-11-25T04:40:00.000Z',
    doneBy: null,
    corrected: false,
  },
});

const speaksAbout = (after: readonly Change[], before: readonly Change[]) => {
  const touched = touchedBy(after, before);
  return { watched: watchedBy(after, before).subjects, touched: touched === 'everything' ? touched : touched.about.has(of) };
};

describe('what a reading speaks about', () => {
  it.each(subjectType.options.filter(namesFood))('food, where it is about a %s: a concern may begin or end there', (about) => {
    expect(speaksAbout([taken(about)], [])).toEqual({ watched: [of], touched: true });
  });

  it.each(subjectType.options.filter((type) => !namesFood(type)))('no food, where it is about a %s: nothing is looked for', (about) => {
    expect(speaksAbout([taken(about)], [])).toEqual({ watched: [], touched: false });
  });

  it('what it spoke about before it was corrected', () => {
    expect(speaksAbout([taken('place')], [taken('lot')])).toEqual({ watched: [of], touched: true });
  });
});
