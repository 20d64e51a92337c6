import { Global, Module } from '@nestjs/common';
import { Books } from './books.js';
import { LedgerService } from './ledger.service.js';
import { Unchanged } from './unchanged.js';

@Global()
@Module({ providers: [LedgerService, Books, Unchanged], exports: [LedgerService, Books, Unchanged] })
export class LedgerModule {}
