import { Inject, Injectable, Logger } from '@nestjs/common';
import { CLOCK, type Clock } from '../clock/index.js';
import { Tenancy } from '../database/index.js';
import { LedgerWriter } from './ledger-writer.js';

/** The one writer of this process, with its ports plugged in. */
@Injectable()
export class LedgerService {
  private readonly log = new Logger('Ledger');
  readonly writer: LedgerWriter;

  constructor(tenancy: Tenancy, @Inject(CLOCK) clock: Clock) {
    this.writer = new LedgerWriter({
      inOrganisation: (organisation, work) => tenancy.inOrganisation(organisation, work),
      now: () => clock.now(),
      fault: (error) => this.log.error(error instanceof Error ? (error.stack ?? error.message) : String(error)),
    });
  }
}
