export { RecallsModule } from './recalls.module.js';
export { RecallsService } from './recalls.service.js';
