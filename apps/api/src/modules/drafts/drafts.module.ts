import { Module } from '@nestjs/common';
import { DraftsService } from './drafts.service.js';

@Module({ providers: [DraftsService], exports: [DraftsService] })
export class DraftsModule {}
