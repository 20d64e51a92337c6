import { Module } from '@nestjs/common';
import { DraftsModule } from '../drafts/index.js';
import { FormulaDraftsController } from './formula-drafts.controller.js';
import { FormulaDraftsService } from './formula-drafts.service.js';
import { FormulasController } from './formulas.controller.js';

@Module({ imports: [DraftsModule], controllers: [FormulaDraftsController, FormulasController], providers: [FormulaDraftsService] })
export class FormulasModule {}
