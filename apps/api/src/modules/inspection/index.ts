export { InspectionModule } from './inspection.module.js';
