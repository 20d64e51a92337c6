export { allFields, bookInBundle, shownFields } from './book-bundle.js';
export { putSealKey, SealKey, sealKeyToKeep, verifierKeys } from './seal-key.js';
export { sealNow } from './seal-now.js';
export { SealsModule } from './seals.module.js';
export { maxInBundle, SealsService } from './seals.service.js';
