import { describe, expect, it } from '@jest/globals';
import { requiredUnit, verdictOf, type Requirement, type Observation } from './verdict.js';
import type { PointContent } from '../rows/plan-content.js';

const core = (of: Partial<Requirement> = {}): Requirement => ({
  limit: { type: 'range', min: '93', max: null, unit: 'degC' },
  measured: 'core',
  holdSeconds: null,
  ...of,
});
const read = (figure: string, unit: 'degC' | 'degF' | 'min' | 'g' | 'kg' = 'degC', of: Partial<Observation> = {}): Observation => ({
  value: { figure, unit },
  yes: null,
  measured: 'core',
  seconds: null,
  ...of,
});
const limit = (l: PointContent['limit'], measured: PointContent['measured'] = 'core'): Requirement => ({
  limit: l,
  measured,
  holdSeconds: null,
});

describe('a verdict', () => {
  it.each<[string, Observation, Requirement | null, number, string]>([
    ['below the minimum', read('87.9'), core(), 0, 'outside'],
    ['at the minimum', read('93.0'), core(), 0, 'within'],
    ['above it', read('94.4'), core(), 0, 'within'],
    ['in Fahrenheit at the minimum: 199.4 °F is 93 °C', read('199.4', 'degF'), core(), 0, 'within'],
    ['in Fahrenheit just below', read('199.3', 'degF'), core(), 0, 'outside'],
    ['closer than the probe can tell', read('93.2'), core(), 500, 'unsure'],
    [
      'by half a degree C in a Fahrenheit limit, which is 0.9 °F',
      read('200.2', 'degF'),
      core({ limit: { type: 'range', min: '199.4', max: null, unit: 'degF' } }),
      500,
      'unsure',
    ],
    ['0.9 °F away', read('200.3', 'degF'), core({ limit: { type: 'range', min: '199.4', max: null, unit: 'degF' } }), 500, 'within'],
    ['no core has 940 °C', read('940'), core(), 0, 'not-believable'],
    ['an oven’s air may have 300 °C', read('300', 'degC', { measured: 'air' }), null, 0, 'no-limit'],
    ['hot on the surface says nothing about the core', read('95', 'degC', { measured: 'surface' }), core(), 0, 'unsure'],
    ['cold on the surface is cold', read('60', 'degC', { measured: 'surface' }), core(), 0, 'outside'],
    ['held long enough', read('96.8', 'degC', { seconds: 90 }), core({ holdSeconds: '30' }), 0, 'within'],
    ['held exactly long enough', read('96.8', 'degC', { seconds: 30 }), core({ holdSeconds: '30' }), 0, 'within'],
    ['held too short', read('96.8', 'degC', { seconds: 20 }), core({ holdSeconds: '30' }), 0, 'outside'],
    ['held for nobody knows how long', read('96.8'), core({ holdSeconds: '30' }), 0, 'unsure'],
    [
      '75 minutes of 90',
      read('75', 'min', { measured: 'elapsed' }),
      limit({ type: 'elapsed', maxMinutes: 90, fromCelsius: '63', toCelsius: '8' }, 'elapsed'),
      0,
      'within',
    ],
    [
      '140 minutes of 90',
      read('140', 'min', { measured: 'elapsed' }),
      limit({ type: 'elapsed', maxMinutes: 90, fromCelsius: '63', toCelsius: '8' }, 'elapsed'),
      0,
      'outside',
    ],
    ['yes', { value: null, yes: true, measured: 'yes-no', seconds: null }, limit({ type: 'yes' }, 'yes-no'), 0, 'within'],
    ['no', { value: null, yes: false, measured: 'yes-no', seconds: null }, limit({ type: 'yes' }, 'yes-no'), 0, 'outside'],
    [
      'a weight nearer than its scale shows, limit in kilograms',
      read('0.8004', 'kg', { measured: 'mass' }),
      limit({ type: 'range', min: '0.8', max: null, unit: 'kg' }, 'mass'),
      500,
      'unsure',
    ],
    [
      'a weight further off than that',
      read('800.6', 'g', { measured: 'mass' }),
      limit({ type: 'range', min: '0.8', max: null, unit: 'kg' }, 'mass'),
      500,
      'within',
    ],
  ])('%s', (_case, observation, asked, halfWidth, verdict) => {
    expect(verdictOf(observation, asked, halfWidth)).toBe(verdict);
  });

  it('asks for a unit of time where time is limited, and for none where yes is', () => {
    expect([requiredUnit({ type: 'elapsed', maxMinutes: 90, fromCelsius: null, toCelsius: null }), requiredUnit({ type: 'yes' })]).toEqual([
      'min',
      null,
    ]);
  });
});
