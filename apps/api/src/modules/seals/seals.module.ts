import { Module } from '@nestjs/common';
import { SealKey } from './seal-key.js';
import { HeadsController } from './heads.controller.js';
import { HeadsService } from './heads.service.js';
import { SealsController } from './seals.controller.js';
import { SealsService } from './seals.service.js';

@Module({ controllers: [SealsController, HeadsController], providers: [SealsService, HeadsService, SealKey], exports: [SealsService] })
export class SealsModule {}
