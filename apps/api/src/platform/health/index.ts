export { HealthModule } from './health.module.js';
export { claim, isBakehouse, type Claim } from './running.js';
