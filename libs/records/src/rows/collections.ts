import { bakingRows } from './baking.js';
import { catalogueRows } from './catalogue.js';
import { controlRows } from './control.js';
import { formulasRows } from './formulas.js';
import { inspectionRows } from './inspection.js';
import { makesRows } from './makes.js';
import { outRows } from './out.js';
import { peopleRows } from './people.js';
import { plansRows } from './plans.js';
import { recallsRows } from './recalls.js';
import { sitesRows } from './sites.js';
import { stockRows } from './stock.js';

/** The one list of collections, an area after the other: tables, loading, saving, rebuilding and the tablet's snapshot all read it. */
export const collections = {
  ...peopleRows,
  ...sitesRows,
  ...catalogueRows,
  ...formulasRows,
  ...plansRows,
  ...stockRows,
  ...makesRows,
  ...bakingRows,
  ...controlRows,
  ...outRows,
  ...recallsRows,
  ...inspectionRows,
} as const;
