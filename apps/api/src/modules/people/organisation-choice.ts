import { Injectable } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { Devices, deviceToken, type EnrolledDevice, type From } from '../../platform/access/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { onlyOrganisation, organisationName } from './sign-on.query.js';

export interface Origin {
  readonly organisation: string;
  readonly device: EnrolledDevice | undefined;
  readonly from: From;
}

/** Whose house a request is for, before anybody has signed on. */
@Injectable()
export class OrganisationChoice {
  constructor(
    private readonly devices: Devices,
    private readonly tenancy: Tenancy,
  ) {}

  /**
   * The enrolled device's house, else the one that is named, else the only one there is.
   * @throws ProblemException where there are several and none is named, or there is none of that name: before a PIN is looked at, which is dear
   */
  async of(request: FastifyRequest, named?: string): Promise<Origin> {
    const device = await this.devices.current(deviceToken(request));
    if (device && (named === undefined || named === device.organisation))
      return { organisation: device.organisation, device, from: { device: device.id } };
    const organisation = named === undefined ? await this.tenancy.outside(onlyOrganisation) : await this.known(named);
    if (organisation === null) throw new ProblemException({ problem: 'which-organisation', field: 'organisation' });
    return { organisation, device: undefined, from: { address: request.ip } };
  }

  private async known(organisation: string): Promise<string | null> {
    const name = await this.tenancy.reading(organisation, (client) => organisationName(client, organisation));
    return name === undefined ? null : organisation;
  }
}
