import { Module } from '@nestjs/common';
import { PeopleModule } from '../people/index.js';
import { CounterController } from './counter.controller.js';
import { ContentsController } from './contents.controller.js';
import { CounterService } from './counter.service.js';

@Module({ imports: [PeopleModule], controllers: [CounterController, ContentsController], providers: [CounterService] })
export class CounterModule {}
