import { paperOrder, type PaperOrder } from '@bakehouse/contracts';
import { Controller, Delete, Get, HttpCode, Param, StreamableFile } from '@nestjs/common';
import { ApiNoContentResponse, ApiOkResponse, ApiOperation, ApiProduces, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, SignedOn, type SessionContext } from '../../platform/access/index.js';
import { fileOf, pdfType } from '../file.js';
import { PaperOrders } from './orders.js';

const id = z.uuid().toLowerCase();

/** What was ordered is its buyer's alone, who had the right to it and was noted when it was ordered. */
@ApiTags('papers')
@Controller('papers/:order')
export class PaperOrdersController {
  constructor(private readonly orders: PaperOrders) {}

  @Get()
  @SignedOn()
  @ApiOperation({ summary: 'How far an ordered paper is' })
  @ApiOkResponse({ standardSchema: paperOrder })
  show(@Param('order', { schema: id }) order: string, @CurrentSession() session: SessionContext): PaperOrder {
    return this.orders.of(session, order);
  }

  @Delete()
  @HttpCode(204)
  @SignedOn()
  @ApiOperation({ summary: 'Takes an order back: it is not made, or let go' })
  @ApiNoContentResponse()
  cancel(@Param('order', { schema: id }) order: string, @CurrentSession() session: SessionContext): void {
    this.orders.cancel(session, order);
  }

  @Get('file')
  @SignedOn()
  @ApiOperation({ summary: 'The ordered paper, once it is done' })
  @ApiProduces(pdfType)
  @ApiOkResponse({ schema: { type: 'string', format: 'binary' } })
  file(@Param('order', { schema: id }) order: string, @CurrentSession() session: SessionContext): StreamableFile {
    const { bytes, name } = this.orders.fileOf(session, order);
    return fileOf(bytes, pdfType, name);
  }
}
