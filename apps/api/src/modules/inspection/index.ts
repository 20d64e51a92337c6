export { InspectionModule } from './inspection.module.js';
export { InspectionService } from './inspection.service.js';
export { given, periodOf, requestedPeriod, type Period, type RequestedPeriod } from './period.js';
