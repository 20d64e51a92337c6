export { fileOf, pdfType } from './file.js';
export * from './layout/index.js';
export { PapersModule } from './papers.module.js';
