export { OrganisationAsked } from './organisation-asked.js';
export { PeopleModule } from './people.module.js';
export { SignaturesService } from './signatures.service.js';
