import type { PayloadFor } from '@bakehouse/records';

/** The temperature of a site's room, read by nobody's probe: the shortest fact there is. */
export const roomReading = (site: string, figure = '21'): PayloadFor<'reading-taken'> => ({
  subjectType: 'site',
  subject: site,
  point: null,
  measured: 'air',
  parameter: 'room',
  instrument: null,
  value: { figure, unit: 'degC' },
  yes: null,
  seconds: null,
});

export const flourSpecification = (material: string): PayloadFor<'specification-accepted'> => ({
  material,
  name: 'Strong white flour',
  type: 'ingredient',
  countedIn: 'mass',
  densityMgPerMl: null,
  storage: 'ambient',
  lifeDays: 180,
  lifeOpenedHours: null,
  contains: ['wheat'],
  mayContain: [],
  checked: { against: 'supplier-specification', on: '2026-01-01' },
  flour: true,
  animalOrigin: false,
  supplier: null,
});

/** One lot of it, with its code on it. */
export const flourDelivery = (material: string, lot: string, kg = '25'): PayloadFor<'delivery-received'> => ({
  supplier: null,
  noteNumber: 'DN 1',
  photo: null,
  unattended: false,
  lines: [
    {
      lot,
      material,
      code: 'M4471',
      codeState: 'on-it',
      quantity: { figure: kg, unit: 'kg' },
      asWritten: `${kg} kg`,
      bestBefore: '2027-02-28',
      useBy: null,
      temperature: null,
    },
  ],
});
