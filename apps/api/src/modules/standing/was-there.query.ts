/** Of a lot: whether anything was done with it, used, opened, sent out, put on a counter or counted. `wasThere` of the records as a condition. $1 is the organisation. */
export const wasThereSql = (lot: string): string =>
  `(${[
    'flow f WHERE f.organisation = $1 AND f.source',
    ...['departure', 'in_use', 'counted', 'on_counter'].map((of) => `${of} f WHERE f.organisation = $1 AND f.lot`),
  ]
    .map((of) => `EXISTS (SELECT 1 FROM ${of} = ${lot})`)
    .join(' OR ')})`;
