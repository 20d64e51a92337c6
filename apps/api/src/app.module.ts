import { Module, type DynamicModule } from '@nestjs/common';
import { PlatformModule, type PlatformOptions } from './platform/platform.module.js';

/** The whole application: the platform and every module on it. */
@Module({})
export class AppModule {
  static of(options: PlatformOptions): DynamicModule {
    return { module: AppModule, imports: [PlatformModule.of(options)] };
  }
}
