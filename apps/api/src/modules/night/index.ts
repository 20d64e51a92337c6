import { Module } from '@nestjs/common';
import { NightController } from './night.controller.js';

@Module({ controllers: [NightController] })
export class NightModule {}
