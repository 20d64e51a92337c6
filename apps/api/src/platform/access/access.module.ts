import { Global, Module } from '@nestjs/common';
import { APP_GUARD, APP_INTERCEPTOR, DiscoveryModule } from '@nestjs/core';
import { CONFIG, type Config } from '../config/index.js';
import { AccessGuard } from './access.guard.js';
import { Devices } from './devices.js';
import { PIN_COST, PinHash, type PinCost } from './pin-hash.js';
import { Pins } from './pins.js';
import { RouteCensus } from './route-census.js';
import { Refusals } from './refusals.js';
import { SecurityLog } from './security-log.js';
import { Sessions } from './sessions.js';
import { ACCESS_SETTINGS, settingsFrom } from './settings.js';
import { ViewingInterceptor } from './viewing.interceptor.js';

/** Who may do what: a guard before every route, a census of the routes at the start, sessions, PINs and devices for the module people. */
@Global()
@Module({
  imports: [DiscoveryModule],
  providers: [
    { provide: APP_GUARD, useClass: AccessGuard },
    { provide: APP_INTERCEPTOR, useClass: ViewingInterceptor },
    { provide: ACCESS_SETTINGS, inject: [CONFIG], useFactory: (config: Config) => settingsFrom(config) },
    Sessions,
    { provide: PinHash, inject: [PIN_COST], useFactory: (cost: PinCost) => new PinHash(cost) },
    Refusals,
    SecurityLog,
    Pins,
    Devices,
    RouteCensus,
  ],
  exports: [Sessions, Pins, Devices, SecurityLog, ACCESS_SETTINGS],
})
export class AccessModule {}
