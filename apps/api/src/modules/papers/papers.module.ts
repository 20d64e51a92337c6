import { Module } from '@nestjs/common';
import { RecallsModule } from '../recalls/index.js';
import { SealsModule } from '../seals/index.js';
import { RecallPapersController } from './recall/recall-papers.controller.js';
import { RecallPapersService } from './recall/recall-papers.service.js';

@Module({ imports: [RecallsModule, SealsModule], controllers: [RecallPapersController], providers: [RecallPapersService] })
export class PapersModule {}
