import { Module, type DynamicModule } from '@nestjs/common';
import { HealthController, INSTANCE } from './health.controller.js';

@Module({})
export class HealthModule {
  static of(instance: string): DynamicModule {
    return { module: HealthModule, controllers: [HealthController], providers: [{ provide: INSTANCE, useValue: instance }] };
  }
}
