/** Where things are on the table's tablet. */
export const paths = {
  today: '/table',
  start: '/table/start',
  startOf: (formula: string) => `/table/start/${formula}`,
  make: (id: string) => `/table/make/${id}`,
  weigh: (id: string) => `/table/make/${id}/weigh`,
  mixed: (id: string) => `/table/make/${id}/mixed`,
  makeUp: (id: string) => `/table/make/${id}/make-up`,
  run: (id: string) => `/table/run/${id}`,
  count: (id: string) => `/table/run/${id}/count`,
  loadNew: '/table/load/new',
  load: (id: string) => `/table/load/${id}`,
  batch: (id: string) => `/table/batch/${id}`,
  read: (type: string, subject: string, point: string) => `/table/read/${type}/${subject}/${point}`,
  open: '/table/open',
  goods: '/table/goods',
  report: (type: string, subject: string) => `/table/report/${type}/${subject}`,
  deviation: (id: string) => `/table/deviation/${id}`,
  recent: '/table/recent',
  correct: (id: string) => `/table/recent/${id}`,
  sheet: '/table/sheet',
  out: '/table/out',
  send: (channel: string) => `/table/out/send/${channel}`,
  returned: '/table/out/back',
  counter: '/table/out/counter',
  countLot: (id: string) => `/table/out/count/${id}`,
  stock: '/table/out/stock',
  move: '/table/out/move',
  vessel: '/table/out/vessels',
  cleanDown: '/table/clean-down',
  probeCheck: '/table/probe-check',
  holdPlace: '/table/hold-place',
  holdThisPlace: (id: string) => `/table/hold-place/${id}`,
} as const;

export const subjectPath = (type: string, id: string): string => {
  switch (type) {
    case 'make':
      return paths.make(id);
    case 'run':
      return paths.run(id);
    case 'load':
      return paths.load(id);
    case 'batch':
      return paths.batch(id);
    default:
      return paths.today;
  }
};
