export {
  blank,
  box,
  cautionBox,
  code,
  cutHere,
  facts,
  field,
  fields,
  heading,
  inside,
  paragraph,
  scanned,
  small,
  steps,
  sure,
  tick,
} from './blocks.js';
export { breakLong, cell, type Content, type Node } from './content.js';
export { amountOf, measuredText } from './measures.js';
export { Printer } from './draw.js';
export { masthead, type Masthead } from './masthead.js';
export { notesOf, type Notes } from './notes.js';
export type { Paper } from './page.js';
export { pageSizes, side, sizeOfZone } from './paper-size.js';
export { sheet, type Sheet, type SheetColumn, type SheetValue } from './sheets.js';
export { lines, strong, table, type Column } from './tables.js';
export { verdictText } from './verdict.js';
export { inShort, onPaper } from './words.js';
