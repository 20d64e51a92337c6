export { InspectionModule } from './inspection.module.js';
export { InspectionService } from './inspection.service.js';
export { given, requestedPeriod, type Period, type RequestedPeriod } from './period.js';
