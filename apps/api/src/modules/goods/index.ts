import { Module } from '@nestjs/common';
import { GoodsController } from './goods.controller.js';

@Module({ controllers: [GoodsController] })
export class GoodsModule {}
