import { Module } from '@nestjs/common';
import { EventsController } from './events.controller.js';
import { HeadWatch } from './head-watch.js';
import { NightController } from './night.controller.js';
import { StockController } from './stock.controller.js';

@Module({ controllers: [NightController, EventsController, StockController], providers: [HeadWatch] })
export class NightModule {}
