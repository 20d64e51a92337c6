import { amountFigure, canonicalInteger, decided, name, refuse } from '@bakehouse/kernel';
import { Decimal } from 'decimal.js';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import { instrumentType, instrumentUnit } from '../rows/sites.js';

const widest = { degC: 5, g: 5000 } as const;

/**
 * A probe, scale or sensor that this site measures with from now on. Its half-width is how far from the truth it may be (a difference in
 * its unit, from its certificate or its last checks): readings closer to a limit than that cannot be told. None is perfect, so it is never zero.
 */
export const instrumentInUse = defineKind({
  name: 'instrument-in-use',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'manage.site',
  phrase: 'A measuring instrument was taken into use',
  official: 'Measuring instrument taken into use',
  payload: z
    .strictObject({ name, type: instrumentType, unit: instrumentUnit, halfWidth: amountFigure })
    .refine((p) => (p.type === 'scale') === (p.unit === 'g'), { message: 'g for a scale, degC for everything else', path: ['unit'] }),
  outcome: z.strictObject({ halfWidthMilli: canonicalInteger }),
  examples: [{ name: 'Probe P1', type: 'probe', unit: 'degC', halfWidth: '0.5' }],
  needs: () => [],
  decide({ payload: p }) {
    const halfWidth = new Decimal(p.halfWidth);
    if (halfWidth.lte(0) || halfWidth.gt(widest[p.unit]))
      return refuse('unacceptable-value', 'payload.halfWidth', `above 0 and at most ${widest[p.unit]} ${p.unit}`);
    return decided({ halfWidthMilli: halfWidth.times(1000).ceil().toNumber() });
  },
  rows: ({ payload: p, root, at }, o) => [
    {
      in: 'instrument',
      id: root,
      row: { name: p.name, type: p.type, halfWidthMilli: o.halfWidthMilli, unit: p.unit, since: at },
    },
  ],
});
