export { OrganisationChoice } from './organisation-choice.js';
export { PeopleModule } from './people.module.js';
export { securityEventsSince } from './security-log.query.js';
export { SignaturesService } from './signatures.service.js';
