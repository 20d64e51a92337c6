import { me, type Me } from '@bakehouse/contracts';
import { Controller, Get } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { CurrentSession, SignedOn, type SessionContext } from '../../platform/access/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books } from '../../platform/ledger/index.js';
import { organisationName } from './sign-on.query.js';

@ApiTags('sign-on')
@Controller('me')
export class MeController {
  constructor(
    private readonly books: Books,
    private readonly tenancy: Tenancy,
  ) {}

  @Get()
  @SignedOn()
  @ApiOperation({ summary: 'The person who is signed on, and their permissions at each site' })
  @ApiOkResponse({ standardSchema: me })
  async show(@CurrentSession() s: SessionContext): Promise<Me> {
    const books = await this.books.all(s.organisation);
    const name = await this.tenancy.reading(s.organisation, (client) => organisationName(client, s.organisation));
    const sites = books.filter((b) => b.type === 'site' && s.sites.includes(b.id));
    return {
      organisation: { id: s.organisation, name: name ?? '' },
      person: { id: s.person, name: s.name },
      strength: s.strength,
      session: s.session,
      device: s.device,
      expiresAt: s.expiresAt,
      permissions: [...s.permissionsAt(null)],
      withPin: [...s.askerAt(null).whenSigned],
      sites: sites.map((b) => ({
        ...{ id: b.id, name: b.name, zone: b.zone, dayStarts: b.dayStarts },
        permissions: [...s.permissionsAt(b.id)],
        withPin: [...s.askerAt(b.id).whenSigned],
      })),
      inspections: s.inspections.map((i) => ({ sites: [...i.sites], from: i.from, until: i.until, expires: i.expires })),
    };
  }
}
