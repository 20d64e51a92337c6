import { Module } from '@nestjs/common';
import { SealsModule } from '../seals/index.js';
import { InspectionController } from './inspection.controller.js';
import { InspectionService } from './inspection.service.js';
import { PackService } from './pack/pack.service.js';

@Module({ imports: [SealsModule], controllers: [InspectionController], providers: [InspectionService, PackService] })
export class InspectionModule {}
