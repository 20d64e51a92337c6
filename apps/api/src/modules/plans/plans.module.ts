import { Module } from '@nestjs/common';
import { DraftsModule } from '../drafts/index.js';
import { PlanDraftsController } from './plan-drafts.controller.js';
import { PlanDraftsService } from './plan-drafts.service.js';
import { PlansController } from './plans.controller.js';

@Module({ imports: [DraftsModule], controllers: [PlanDraftsController, PlansController], providers: [PlanDraftsService] })
export class PlansModule {}
