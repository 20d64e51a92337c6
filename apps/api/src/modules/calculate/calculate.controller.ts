import { Body, Controller, Get, Header, HttpCode, Inject, Param, Post } from '@nestjs/common';
import { ApiExcludeEndpoint, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { Public } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Limits, ProblemException } from '../../platform/http/index.js';
import { allCalculations } from './all.js';
import { Sums } from './sums.js';

/** A profile of a million points takes some 40 MB as JSON. */
const bodyBytes = 64 * 1024 * 1024;
const perMinute = 1200;
/** Nobody signs on here: the two largest there can be in a minute from one address, and what the service has room for beside its work. */
const sent = { bytesPerMinute: 2 * bodyBytes, bytesUnderWay: 3 * bodyBytes };

const catalogue = z.array(z.object({ name: z.string(), title: z.string(), example: z.unknown() })).meta({ id: 'Calculations' });

/** The sums, without sign-on: nothing is stored and nothing of the house is read. */
@ApiTags('calculate')
@Controller('calculate')
export class CalculateController {
  constructor(
    private readonly sums: Sums,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get()
  @ApiOperation({ summary: 'The calculations, each with its source' })
  @Public()
  @ApiOkResponse({ standardSchema: catalogue })
  list(): z.infer<typeof catalogue> {
    return allCalculations.map(({ name, title, example }) => ({ name, title, example }));
  }

  /** Each has a path of its own in the API's description. */
  @Post(':name')
  @HttpCode(200)
  @Public()
  @Limits({ bodyBytes, perMinute, sent })
  @Header('content-type', 'application/json; charset=utf-8')
  @ApiExcludeEndpoint()
  async calculate(@Param('name') name: string, @Body() body: unknown): Promise<Buffer> {
    if (!Buffer.isBuffer(body))
      throw new ProblemException(body === undefined || body === null ? 'malformed-json' : 'unsupported-media-type');
    const answer = await this.sums.workedOut({ name, body, year: this.clock.now().getUTCFullYear() });
    if ('problem' in answer) throw new ProblemException(answer.problem);
    const { buffer, byteOffset, byteLength } = answer.json;
    return Buffer.from(buffer, byteOffset, byteLength);
  }
}
