import { Module } from '@nestjs/common';
import { TraceModule } from '../trace/index.js';
import { RecallsController } from './recalls.controller.js';
import { RecallsService } from './recalls.service.js';

@Module({ imports: [TraceModule], controllers: [RecallsController], providers: [RecallsService], exports: [RecallsService] })
export class RecallsModule {}
