export { blank, box, cautionBox, facts, heading, paragraph, small, steps, tick, tickBox } from './blocks.js';
export { cell, type Content, type Node } from './content.js';
export { amountOf, measuredText } from './measures.js';
export { Printer } from './draw.js';
export type { Paper } from './page.js';
export { sheet, type Sheet, type SheetColumn, type SheetValue } from './sheets.js';
export { lines, strong, table, type Column } from './tables.js';
export { verdictText } from './verdict.js';
export { inShort, onPaper } from './words.js';
