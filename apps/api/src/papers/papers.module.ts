import { Module } from '@nestjs/common';
import { InspectionModule } from '../modules/inspection/index.js';
import { RecallsModule } from '../modules/recalls/index.js';
import { SealsModule } from '../modules/seals/index.js';
import { PackController } from './inspection/pack.controller.js';
import { Printer } from './layout/index.js';
import { PaperOrders } from './orders/orders.js';
import { PaperOrdersController } from './orders/orders.controller.js';
import { RecallPapersController } from './recall/recall-papers.controller.js';
import { RecallPapersService } from './recall/recall-papers.service.js';

/** Every paper. Papers use modules; no module uses a paper. */
@Module({
  imports: [InspectionModule, RecallsModule, SealsModule],
  controllers: [RecallPapersController, PackController, PaperOrdersController],
  providers: [RecallPapersService, PaperOrders, Printer],
})
export class PapersModule {}
