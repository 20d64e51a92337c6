import { createHash } from 'node:crypto';
import { Body, Controller, Get, Header, HttpCode, Inject, Param, Put, StreamableFile } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiNoContentResponse, ApiOkResponse, ApiOperation, ApiProduces, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, Viewed, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { CONFIG, type Config } from '../../platform/config/index.js';
import { PrismaReads, Tenancy } from '../../platform/database/index.js';
import { imageTypes, Limits, ProblemException } from '../../platform/http/index.js';
import { Books } from '../../platform/ledger/index.js';
import { keepPhoto, photoOf, sentBefore } from './photos.query.js';
import { pictureOf } from './picture.js';

const id = z.uuid().toLowerCase();
const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'the SHA-256 of the photo’s bytes, 64 hexadecimal digits in small letters');
const binary = { schema: { type: 'string', format: 'binary' } } as const;

const dayMs = 86_400_000;
/** Until the first of those that fill the day is a day old. */
const secondsUntilRoom = (first: string, now: Date): string =>
  String(Math.max(1, Math.ceil((Date.parse(first) + dayMs - now.getTime()) / 1000)));

/** Photos of delivery notes and of what came: evidence beside the records, which name them by their hash. */
@ApiTags('photos')
@Controller('sites/:site/photos/:sha256')
export class PhotosController {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly reads: PrismaReads,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
    @Inject(CONFIG) private readonly config: Config,
  ) {}

  @Put()
  @HttpCode(204)
  @Permits('record')
  @Limits({ bodyBytes: 4 * 1024 * 1024 })
  @ApiOperation({ summary: 'Stores a photo under the hash of its bytes; sending it again stores nothing more' })
  @ApiConsumes(...imageTypes)
  @ApiBody(binary)
  @ApiNoContentResponse()
  async keep(
    @Param('site', { schema: id }) of: string,
    @Param('sha256', { schema: sha256 }) hash: string,
    @Body() bytes: unknown,
    @CurrentSession() session: SessionContext,
  ): Promise<void> {
    const site = await this.books.site(session.organisation, of);
    if (!Buffer.isBuffer(bytes)) throw new ProblemException('not-a-photo');
    const picture = await pictureOf(bytes);
    if ('problem' in picture) throw new ProblemException(picture.problem);
    const { mediaType } = picture;
    if (createHash('sha256').update(bytes).digest('hex') !== hash)
      throw new ProblemException({ problem: 'not-that-photo', field: 'sha256' });
    const { organisation, person: by, device } = session;
    const now = this.clock.now();
    const photo = { organisation, book: site.id, id: hash, mediaType, bytes, by, device, at: now.toISOString() };
    await this.tenancy.inOrganisation(organisation, async (client) => {
      const sent = await sentBefore(client, photo, new Date(now.getTime() - dayMs).toISOString());
      if (sent === undefined) return;
      const { PHOTOS_PER_DAY, PHOTO_MB_PER_DAY } = this.config;
      if (sent.photos >= PHOTOS_PER_DAY || sent.bytes + bytes.length > PHOTO_MB_PER_DAY * 1024 * 1024)
        throw new ProblemException('too-many-photos', { 'retry-after': secondsUntilRoom(sent.first ?? photo.at, now) });
      await keepPhoto(client, photo);
    });
  }

  @Get()
  @Permits('view', 'inspect')
  @Viewed('a photo of a delivery')
  @Header('cache-control', 'private, max-age=31536000, immutable')
  @ApiOperation({ summary: 'The photo as it was sent' })
  @ApiProduces(...imageTypes)
  @ApiOkResponse(binary)
  async show(
    @Param('site', { schema: id }) of: string,
    @Param('sha256', { schema: sha256 }) hash: string,
    @CurrentSession() session: SessionContext,
  ): Promise<StreamableFile> {
    const site = await this.books.site(session.organisation, of);
    const found = await this.reads.inOrganisation(session.organisation, (tx) => photoOf(tx, session.organisation, site.id, hash));
    if (!found) throw new ProblemException({ problem: 'unknown-photo', field: 'sha256' });
    return new StreamableFile(found.bytes, { type: found.mediaType });
  }
}
