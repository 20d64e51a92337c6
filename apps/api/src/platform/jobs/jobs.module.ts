import { Module } from '@nestjs/common';
import { DailyPurge } from './daily-purge.js';
import { Purge } from './purge.js';

/** What the service does by itself, without anybody asking. */
@Module({ providers: [Purge, DailyPurge] })
export class JobsModule {}
