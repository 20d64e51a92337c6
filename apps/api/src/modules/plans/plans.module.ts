import { Module } from '@nestjs/common';
import { draftsController, DraftsModule } from '../drafts/index.js';
import { planDrafts } from './plan-drafts.js';
import { PlansController } from './plans.controller.js';

@Module({ imports: [DraftsModule], controllers: [draftsController(planDrafts), PlansController] })
export class PlansModule {}
