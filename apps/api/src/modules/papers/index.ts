export { fileOf, pdfType } from './file.js';
export * from './layout/index.js';
export { wholeSchemaOf } from './schema.js';
export { PapersModule } from './papers.module.js';
