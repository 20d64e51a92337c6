import { Global, Module } from '@nestjs/common';
import { Books } from './books.js';
import { LedgerService } from './ledger.service.js';

@Global()
@Module({ providers: [LedgerService, Books], exports: [LedgerService, Books] })
export class LedgerModule {}
