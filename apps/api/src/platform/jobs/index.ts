export { JobsModule } from './jobs.module.js';
export { Purge, type Purged } from './purge.js';
export { retention, type Kept } from './retention.js';
