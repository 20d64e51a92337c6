export { putSealKey, sealKeyToKeep, verifierKeys } from './seal-key.js';
export { SealsModule } from './seals.module.js';
export { maxInBundle, SealsService } from './seals.service.js';
