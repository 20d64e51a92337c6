import { Module, type DynamicModule } from '@nestjs/common';
import { CLOCK, systemClock, type Clock } from './clock/index.js';
import { CONFIG, type Config } from './config/index.js';
import { DatabaseModule } from './database/index.js';
import { PIN_COST, pinCost as usualPinCost, type PinCost } from './access/pin-hash.js';
import { HealthModule } from './health/index.js';
import { Metrics } from './metrics/index.js';

export interface PlatformOptions {
  readonly config: Config;
  /** Where the service's role logs in. */
  readonly serviceUrl: string;
  readonly clock?: Clock;
  /** Tells this process from another one that answers at the same address. */
  readonly instance: string;
  readonly pinCost?: PinCost;
  readonly metrics?: Metrics;
}

/** Settings, clock, database and health, for every module. */
@Module({})
export class PlatformModule {
  static of({
    config,
    serviceUrl,
    clock = systemClock,
    instance,
    pinCost = usualPinCost,
    metrics = new Metrics(),
  }: PlatformOptions): DynamicModule {
    return {
      module: PlatformModule,
      global: true,
      imports: [DatabaseModule.of(serviceUrl, config.DATABASE_POOL), HealthModule.of(instance)],
      providers: [
        { provide: CONFIG, useValue: config },
        { provide: CLOCK, useValue: clock },
        { provide: PIN_COST, useValue: pinCost },
        { provide: Metrics, useValue: metrics },
      ],
      exports: [CONFIG, CLOCK, PIN_COST, Metrics],
    };
  }
}
