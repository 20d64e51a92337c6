export type { DraftType } from './draft-type.js';
export { draftsController } from './drafts.controller.js';
export { DraftsModule } from './drafts.module.js';
