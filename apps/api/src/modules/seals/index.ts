export { SealsModule } from './seals.module.js';
export { maxInBundle, SealsService } from './seals.service.js';
