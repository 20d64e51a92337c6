export { OrganisationChoice } from './organisation-choice.js';
export { everybody } from './people-list.query.js';
export { PeopleModule } from './people.module.js';
export { securityEventsSince } from './security-log.query.js';
export { SignaturesService } from './signatures.service.js';
