export { OrganisationChoice } from './organisation-choice.js';
export { PeopleModule } from './people.module.js';
export { SignaturesService } from './signatures.service.js';
