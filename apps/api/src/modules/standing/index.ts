export { heldAtSite } from './held-at-site.query.js';
export { heldLots } from './held-lots.query.js';
export { standingOf } from './standing-of.query.js';
