import { Global, Module } from '@nestjs/common';
import { Books } from './books.js';
import { EntriesController } from './entries.controller.js';
import { LedgerService } from './ledger.service.js';

@Global()
@Module({ controllers: [EntriesController], providers: [LedgerService, Books], exports: [LedgerService, Books] })
export class LedgerModule {}
