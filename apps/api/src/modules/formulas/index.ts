export { approvalOf, type Approval } from './approvals.query.js';
export { FormulasModule } from './formulas.module.js';
export { newestVersions, specifications } from './formulas.query.js';
