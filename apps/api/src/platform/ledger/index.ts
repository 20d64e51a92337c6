export { Books, type BookInfo } from './books.js';
export { inputOf, sha256 } from './content.js';
export { readStored } from './known.js';
export { LedgerModule } from './ledger.module.js';
export { LedgerService } from './ledger.service.js';
export { ownEntry } from './own-entry.js';
export { bookSizes, type BookSize } from './sizes.query.js';
export { snake, table, tables } from './table.js';
export type { Asker, BookRef, Receipt, Result } from './types.js';
