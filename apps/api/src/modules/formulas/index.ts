export { approvalOf, type Approval } from './approvals.query.js';
export { formulaDrafts } from './formula-drafts.js';
export { FormulasModule } from './formulas.module.js';
export { type NewestVersion, newestVersions, specifications } from './formulas.query.js';
