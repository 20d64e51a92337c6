export { againstOf, answerConflict, headOf, othersOf, problemsShown, tagged } from './draft-replies.js';
export { ifMatchHeader, whichDrafts } from './draft-requests.js';
export { DraftsModule } from './drafts.module.js';
export { draftAndOthers, type Content, type DraftRow } from './drafts.query.js';
export { DraftsService, type SaveOutcome } from './drafts.service.js';
export { readIfMatch, tagOf } from './if-match.js';
