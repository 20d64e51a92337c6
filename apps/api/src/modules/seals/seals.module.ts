import { Module } from '@nestjs/common';
import { SealKey } from './seal-key.js';
import { SealsController } from './seals.controller.js';
import { SealsService } from './seals.service.js';

@Module({ controllers: [SealsController], providers: [SealsService, SealKey], exports: [SealsService] })
export class SealsModule {}
