export { findLots } from './find-lots.query.js';
export { TraceModule } from './trace.module.js';
export { TraceService } from './trace.service.js';
