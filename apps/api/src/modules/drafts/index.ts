export type { DraftType } from './draft-type.js';
export { draftsController } from './drafts.controller.js';
export { draftsOf } from './drafts.query.js';
export { DraftsModule } from './drafts.module.js';
