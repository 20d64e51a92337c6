export { batchStandings } from './batch-standings.query.js';
export { contactEnds, touchedBy } from './contact.query.js';
export { doubtsAbout } from './doubts-about.query.js';
export { heldAtSite, heldHere } from './held-at-site.query.js';
export { heldLots } from './held-lots.query.js';
export { houseDays } from './house-days.js';
export { wasThereSql } from './was-there.query.js';
export { pastUseByAtSite } from './past-use-by.query.js';
export { followedStandingOf, standingOf } from './standing-of.query.js';
