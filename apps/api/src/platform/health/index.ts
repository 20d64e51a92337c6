export { HealthModule } from './health.module.js';
export { claim, type Claim } from './running.js';
