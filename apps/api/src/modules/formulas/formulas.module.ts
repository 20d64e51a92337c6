import { Module } from '@nestjs/common';
import { draftsController, DraftsModule } from '../drafts/index.js';
import { formulaDrafts } from './formula-drafts.js';
import { FormulasController } from './formulas.controller.js';

@Module({ imports: [DraftsModule], controllers: [draftsController(formulaDrafts), FormulasController] })
export class FormulasModule {}
