export { Beside } from './beside';
export type { Column } from './columns';
export { DataTable } from './data-table';
