export { heldAtSite } from './held-at-site.js';
export { heldLots } from './held-lots.js';
export { standingOf } from './standing-of.js';
