import { Module } from '@nestjs/common';
import { EntriesController } from './entries.controller.js';

/** The write door's address: it knows who asks and hands what they send to the ledger, which knows neither routes nor sessions. */
@Module({ controllers: [EntriesController] })
export class EntriesModule {}
