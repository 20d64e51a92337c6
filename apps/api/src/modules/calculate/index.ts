import { Module } from '@nestjs/common';
import { CalculateController } from './calculate.controller.js';

export { allCalculations } from './all.js';
export { describeCalculations } from './describe.js';

@Module({ controllers: [CalculateController] })
export class CalculateModule {}
