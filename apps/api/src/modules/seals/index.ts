export { SealsModule } from './seals.module.js';
export { mostInBundle, SealsService } from './seals.service.js';
