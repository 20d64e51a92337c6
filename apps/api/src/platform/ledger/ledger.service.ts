import { Inject, Injectable, Logger, type BeforeApplicationShutdown } from '@nestjs/common';
import { CLOCK, type Clock } from '../clock/index.js';
import { Tenancy } from '../database/index.js';
import { Metrics } from '../metrics/index.js';
import { LedgerWriter, type WriterPorts } from './ledger-writer.js';

/** The one writer of this process, with its ports plugged in. */
@Injectable()
export class LedgerService implements BeforeApplicationShutdown {
  private readonly log = new Logger('Ledger');
  readonly writer: LedgerWriter;
  /** What went wrong in the service itself since it began: how often, and what was last. Nobody who records is told more than to send it again. */
  readonly faults = { count: 0, last: '' };

  constructor(tenancy: Tenancy, @Inject(CLOCK) clock: Clock, metrics: Metrics) {
    const inOrganisation: WriterPorts['inOrganisation'] = (organisation, work) => tenancy.inOrganisation(organisation, work);
    this.writer = new LedgerWriter({
      inOrganisation,
      beside: inOrganisation,
      now: () => clock.now(),
      fault: (error) => this.failed(error instanceof Error ? (error.stack ?? error.message) : String(error)),
    });
    metrics.gauge(
      'bakehouse_ledger_faults',
      'Faults of the service itself at its records since it began; the log has them',
      () => this.faults.count,
    );
    metrics.gauge('bakehouse_entries_waiting', 'Entries that wait for a commit now', () =>
      [...this.writer.lanes.values()].reduce((sum, lane) => sum + lane.waiting, 0),
    );
  }

  private failed(why: string): void {
    this.faults.count += 1;
    this.faults.last = why;
    this.log.error(why);
  }

  async beforeApplicationShutdown(): Promise<void> {
    await this.writer.end();
  }
}
