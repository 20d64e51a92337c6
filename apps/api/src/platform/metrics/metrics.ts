import { collectDefaultMetrics, Counter, Gauge, Histogram, Registry } from 'prom-client';

/**
 * What this process did since it began, for the people who run the service, in Prometheus’ text format. No house, person or record is named in it.
 */
export class Metrics {
  private readonly registry = new Registry();
  private readonly requests = new Histogram({
    name: 'bakehouse_request_seconds',
    help: 'How long requests took, by method, route and status',
    labelNames: ['method', 'route', 'status'] as const,
    buckets: [0.005, 0.02, 0.05, 0.1, 0.3, 1, 3, 10],
    registers: [this.registry],
  });
  private readonly entries = new Counter({
    name: 'bakehouse_entries_total',
    help: 'Entries that were sent, by what became of them',
    labelNames: ['as'] as const,
    registers: [this.registry],
  });
  private readonly problems = new Counter({
    name: 'bakehouse_problems_total',
    help: 'Problems that were answered, requests and single entries alike, by their code',
    labelNames: ['problem'] as const,
    registers: [this.registry],
  });

  request(took: { readonly method: string; readonly route: string; readonly status: number }, seconds: number): void {
    this.requests.observe(took, seconds);
  }

  entry(as: string): void {
    this.entries.inc({ as });
  }

  problem(problem: string): void {
    this.problems.inc({ problem });
  }

  /** A figure that is read when it is asked for. */
  gauge(name: string, help: string, read: () => number | Promise<number>): void {
    const gauge: Gauge = new Gauge({
      name,
      help,
      registers: [this.registry],
      collect: async (): Promise<void> => gauge.set(await read()),
    });
  }

  /** The process’s own: memory, event loop, open handles. Once, where anybody reads them. */
  ofProcess(): void {
    collectDefaultMetrics({ register: this.registry });
  }

  get contentType(): string {
    return this.registry.contentType;
  }
  text(): Promise<string> {
    return this.registry.metrics();
  }
}
