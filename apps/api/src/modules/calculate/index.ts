import { Module } from '@nestjs/common';
import { CalculateController } from './calculate.controller.js';
import { Sums } from './sums.js';

export { allCalculations } from './all.js';
export { describeCalculations } from './describe.js';

@Module({ controllers: [CalculateController], providers: [Sums] })
export class CalculateModule {}
