import { Module, type DynamicModule } from '@nestjs/common';
import { CalculateModule, describeCalculations } from './modules/calculate/index.js';
import { CatalogueModule } from './modules/catalogue/index.js';
import { CounterModule } from './modules/counter/index.js';
import { FormulasModule } from './modules/formulas/index.js';
import { GoodsModule } from './modules/goods/index.js';
import { PhotosModule } from './modules/photos/index.js';
import { InspectionModule } from './modules/inspection/index.js';
import { NightModule } from './modules/night/index.js';
import { PeopleModule } from './modules/people/index.js';
import { PlansModule } from './modules/plans/index.js';
import { RecallsModule } from './modules/recalls/index.js';
import { SealsModule } from './modules/seals/index.js';
import { SearchModule } from './modules/search/index.js';
import { TrendsModule } from './modules/trends/index.js';
import { SetupModule } from './modules/setup/index.js';
import { TraceModule } from './modules/trace/index.js';
import { PapersModule } from './papers/index.js';
import { AccessModule, describeAccess } from './platform/access/index.js';
import { describeEntries, EntriesModule } from './platform/entries/index.js';
import type { Extension } from './platform/http/index.js';
import { JobsModule } from './platform/jobs/index.js';
import { LedgerModule } from './platform/ledger/index.js';
import { PlatformModule, type PlatformOptions } from './platform/platform.module.js';

/** What is added to the API's description. */
export const apiExtensions: readonly Extension[] = [describeAccess, describeEntries, describeCalculations];

/** The whole application: the platform and every module on it. */
@Module({})
export class AppModule {
  static of(options: PlatformOptions): DynamicModule {
    return {
      module: AppModule,
      imports: [
        PlatformModule.of(options),
        AccessModule,
        LedgerModule,
        EntriesModule,
        JobsModule,
        PeopleModule,
        CalculateModule,
        NightModule,
        CounterModule,
        GoodsModule,
        PhotosModule,
        TraceModule,
        SearchModule,
        TrendsModule,
        RecallsModule,
        SealsModule,
        InspectionModule,
        PapersModule,
        CatalogueModule,
        FormulasModule,
        PlansModule,
        SetupModule,
      ],
    };
  }
}
