export { planDrafts } from './plan-drafts.js';
export { planVersions } from './plans.query.js';
export { PlansModule } from './plans.module.js';
