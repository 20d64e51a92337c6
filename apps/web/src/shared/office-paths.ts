/** Which readings: put together by what, of what, how taken, and for which control point. */
interface Course {
  readonly by: string;
  readonly of: string;
  readonly measured: string;
  readonly parameter: string;
  readonly point: string | null;
}

/** Where things are in the office pages. */
export const office = {
  home: '/office',
  find: (words: string) => `/office/find/${encodeURIComponent(words)}`,
  lot: (id: string) => `/office/lot/${id}`,
  lotFrom: (id: string) => `/office/lot/${id}/from`,
  recalls: '/office/recalls',
  recall: (id: string) => `/office/recalls/${id}`,
  recallNew: (lot: string, hazard: string | null) => `/office/recalls/new/${lot}${hazard === null ? '' : `/${hazard}`}`,
  goods: '/office/goods',
  delivery: (day: string, id: string) => `/office/goods/of/${day}/${id}`,
  stock: '/office/stock',
  formulas: '/office/formulas',
  formula: (version: string) => `/office/formulas/${version}`,
  drafts: '/office/drafts',
  draft: (id: string) => `/office/drafts/${id}`,
  plan: '/office/plan',
  planPoint: (key: string) => `/office/plan/point/${encodeURIComponent(key)}`,
  planDrafts: '/office/plan/drafts',
  planDraft: (id: string) => `/office/plan/draft/${id}`,
  catalogue: '/office/catalogue/*?',
  materials: '/office/catalogue',
  materialNew: '/office/catalogue/new',
  material: (id: string) => `/office/catalogue/material/${id}`,
  parties: '/office/catalogue/parties',
  party: (id: string) => `/office/catalogue/parties/${id}`,
  places: '/office/catalogue/places',
  place: (id: string) => `/office/catalogue/places/${id}`,
  readings: '/office/readings',
  course: (s: Course) =>
    `/office/readings/${s.by}/${s.of}/${s.measured}/${encodeURIComponent(s.parameter)}${s.point === null ? '' : `/${encodeURIComponent(s.point)}`}`,
  site: '/office/site',
  people: '/office/people',
  person: (id: string) => `/office/people/${id}`,
  officer: '/office/officer',
  bake: '/office/bake',
  setup: '/office/setup',
  starters: '/office/setup/starters',
  materialsSheet: '/office/setup/materials-from-a-sheet',
  partiesSheet: '/office/setup/suppliers-from-a-sheet',
} as const;
