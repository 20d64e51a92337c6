/** Where things are in the office pages. */
export const office = {
  home: '/office', find: (words: string) => `/office/find/${encodeURIComponent(words)}`, lot: (id: string) => `/office/lot/${id}`, lotFrom: (id: string) => `/office/lot/${id}/from`,
  recalls: '/office/recalls', recall: (id: string) => `/office/recalls/${id}`, recallNew: (lot: string, hazard: string | null) => `/office/recalls/new/${lot}${hazard === null ? '' : `/${hazard}`}`,
  goods: '/office/goods', goodsNew: '/office/goods/new', goodsLot: (id: string) => `/office/goods/lot/${id}`,
  formulas: '/office/formulas', formula: (version: string) => `/office/formulas/${version}`, drafts: '/office/drafts', draft: (id: string) => `/office/drafts/${id}`, plan: '/office/plan', people: '/office/people', officer: '/office/officer',
} as const;
