import { Module } from '@nestjs/common';
import { CatalogueController } from './catalogue.controller.js';

export { instrumentRows, partyRows, placeRows, specificationRows } from './catalogue.query.js';
export { detailsOfSite, detailsOfSites } from './site-details.query.js';

@Module({ controllers: [CatalogueController] })
export class CatalogueModule {}
