export { describeEntries } from './describe.js';
export { EntriesModule } from './entries.module.js';
