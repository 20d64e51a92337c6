import { calculations, type Calculation, type Explained } from '@bakehouse/sums';
import { calculationsAsOfYear, gs1Calculations } from '@bakehouse/standards';
import { Body, Controller, Get, HttpCode, Inject, Param, Post } from '@nestjs/common';
import { ApiExcludeEndpoint, ApiOkResponse, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { Public } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Limits, ProblemException } from '../../platform/http/index.js';

/** A profile of a million points takes some 40 MB as JSON. */
const bodyBytes = 64 * 1024 * 1024;
const perMinute = 1200;

export const allCalculations: readonly Calculation[] = [...calculations, ...gs1Calculations];
const byName = new Map(allCalculations.map((c) => [c.name, c]));
const catalogue = z.array(z.object({ name: z.string(), title: z.string(), example: z.unknown() })).meta({ id: 'Calculations' });

/** The sums, without sign-on: nothing is stored and nothing of the house is read. */
@ApiTags('calculate')
@Controller('calculate')
export class CalculateController {
  constructor(@Inject(CLOCK) private readonly clock: Clock) {}

  @Get()
  @Public()
  @ApiOkResponse({ standardSchema: catalogue })
  list(): z.infer<typeof catalogue> {
    return allCalculations.map(({ name, title, example }) => ({ name, title, example }));
  }

  /** Each has a path of its own in the API's description. */
  @Post(':name')
  @HttpCode(200)
  @Public()
  @Limits({ bodyBytes, perMinute })
  @ApiExcludeEndpoint()
  calculate(@Param('name') name: string, @Body() body: unknown): Explained {
    const calculation = byName.get(name);
    if (!calculation)
      throw new ProblemException({ problem: 'unknown-calculation', field: 'name', acceptable: `one of: ${[...byName.keys()].join(', ')}` });
    const answer = calculation.calculate(withYear(calculation, body, this.clock.now()));
    if (!answer.ok) throw new ProblemException(answer);
    return answer.value;
  }
}

/** Dates of two-digit years are read as of a year: this one, where the caller names none. */
function withYear({ name }: Calculation, body: unknown, now: Date): unknown {
  const asks = calculationsAsOfYear.has(name) && typeof body === 'object' && body !== null && !Array.isArray(body) && !('asOfYear' in body);
  return asks ? { ...body, asOfYear: now.getUTCFullYear() } : body;
}
