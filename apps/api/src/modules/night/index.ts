import { Module } from '@nestjs/common';
import { EventsController } from './events.controller.js';
import { HeadWatch } from './head-watch.js';
import { NightController } from './night.controller.js';

@Module({ controllers: [NightController, EventsController], providers: [HeadWatch] })
export class NightModule {}
