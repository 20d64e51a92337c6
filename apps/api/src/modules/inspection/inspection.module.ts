import { Module } from '@nestjs/common';
import { SealsModule } from '../seals/index.js';
import { InspectionController } from './inspection.controller.js';
import { InspectionService } from './inspection.service.js';

@Module({ imports: [SealsModule], controllers: [InspectionController], providers: [InspectionService], exports: [InspectionService] })
export class InspectionModule {}
