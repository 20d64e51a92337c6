import {
  deviceList,
  deviceRevocation,
  enrolledDevice,
  enrolmentCode,
  newDevice,
  newEnrolmentCode,
  type DeviceList,
  type EnrolledDevice,
  type EnrolmentCode,
} from '@bakehouse/contracts';
import { Body, Controller, Get, HttpCode, Param, Post, Req, Res } from '@nestjs/common';
import { ApiCreatedResponse, ApiNoContentResponse, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import * as z from 'zod';
import {
  CurrentSession,
  deviceCookie,
  Devices,
  fromOf,
  Pins,
  Public,
  setCookie,
  SignedOn,
  type SessionContext,
} from '../../platform/access/index.js';
import { Limits, ProblemException } from '../../platform/http/index.js';
import { OrganisationChoice } from './organisation-choice.js';

/** A device stays enrolled until it is revoked; browsers keep a cookie for 400 days at most, so it is set for that. */
const cookieSeconds = 400 * 86_400;
const inFront = /^([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})\.(.+)$/i;

@ApiTags('devices')
@Controller('devices')
export class DevicesController {
  constructor(
    private readonly devices: Devices,
    private readonly pins: Pins,
    private readonly asked: OrganisationChoice,
  ) {}

  @Post('enrolment-codes')
  @SignedOn()
  @ApiOperation({ summary: 'A code for one new tablet at a site, for ten minutes' })
  @ApiCreatedResponse({ standardSchema: enrolmentCode })
  async newCode(
    @Body({ schema: newEnrolmentCode }) { site, currentPin }: z.infer<typeof newEnrolmentCode>,
    @CurrentSession() session: SessionContext,
    @Req() request: FastifyRequest,
  ): Promise<EnrolmentCode> {
    session.require('manage.site', site);
    await this.pins.provePresent(session, currentPin, request.ip);
    const { code, expiresAt } = await this.devices.newCode(session.organisation, site, session.person, fromOf(session, request.ip));
    return { code: `${code.slice(0, 5)}-${code.slice(5)}`, codeWithOrganisation: `${session.organisation}.${code}`, expiresAt };
  }

  @Post('enrol')
  @Public()
  @Limits({ perMinute: 20 })
  @ApiOperation({ summary: 'Enrol this tablet' })
  @ApiCreatedResponse({ standardSchema: enrolledDevice })
  async enrol(
    @Body({ schema: newDevice }) { code, name }: z.infer<typeof newDevice>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<EnrolledDevice> {
    const [, organisation, typed = code] = inFront.exec(code) ?? [];
    const { device, token } = await this.devices.enrol(
      organisation?.toLowerCase() ?? (await this.asked.of(request)).organisation,
      typed,
      name,
      request.ip,
    );
    setCookie(request, reply, deviceCookie, token, cookieSeconds);
    return { device: { id: device.id, name: device.name, site: device.site }, token };
  }

  @Get()
  @SignedOn()
  @ApiOperation({ summary: 'The devices of the sites that you administer' })
  @ApiOkResponse({ standardSchema: deviceList })
  list(@CurrentSession() session: SessionContext): Promise<DeviceList> {
    const sites = session.sites.filter((site) => session.permissionsAt(site).has('manage.site'));
    if (sites.length === 0) session.require('manage.site', null);
    return this.devices.list(session.organisation, sites);
  }

  @Post(':device/revocation')
  @HttpCode(204)
  @SignedOn()
  @ApiOperation({ summary: 'Revoke a device and sign off everybody on it' })
  @ApiNoContentResponse()
  async revoke(
    @Param('device', { schema: z.uuid().toLowerCase() }) device: string,
    @Body({ schema: deviceRevocation }) { currentPin }: z.infer<typeof deviceRevocation>,
    @CurrentSession() session: SessionContext,
    @Req() request: FastifyRequest,
  ): Promise<void> {
    const site = await this.devices.siteOf(session.organisation, device);
    if (site === undefined) throw new ProblemException('unknown-device');
    session.require('manage.site', site);
    await this.pins.provePresent(session, currentPin, request.ip);
    await this.devices.revoke(session.organisation, device, session.person, fromOf(session, request.ip));
  }
}
